// Mandatory signs: a white figure on a blue disc, drawn from the meanings in ISO 7010 (M009 wear
// protective gloves, M004 wear eye protection, M016 wear a mask, M013 wear a face shield, M026 use
// protective apron); the outlines are our own.
#include "layout/blocks/pictogram_curves.h"

#include "layout/blocks/ghs_pictograms.h"

namespace tub::layout {
namespace {

using Ink = Curve::Ink;

constexpr std::string_view disc =
    "M 100 50 C 100 77.6 77.6 100 50 100 C 22.4 100 0 77.6 0 50 C 0 22.4 22.4 0 50 0 "
    "C 77.6 0 100 22.4 100 50 Z";
constexpr std::string_view face =
    "M 50 12 C 67 12 76 24 76 42 C 76 66 65 86 50 86 C 35 86 24 66 24 42 C 24 24 33 12 50 12 Z";

const std::vector<Curve> gloves = {
    {Ink::mandatory, 0, disc},
    {Ink::paper, 0,
     "M 36 70 L 36 62 C 36 58 32 54 28 49 L 20.5 40 C 18 36.5 19.5 33.5 22 32.5 "
     "C 24.5 31.5 27 32.5 29 35 L 35.5 42.5 L 35.5 22 C 35.5 19 37.5 17.5 39.8 17.5 "
     "C 42 17.5 44 19 44 22 L 44 38 L 46 38 L 46 16 C 46 13 48 11.5 50.3 11.5 "
     "C 52.6 11.5 54.6 13 54.6 16 L 54.6 38 L 56.6 38 L 56.6 19.5 C 56.6 16.5 58.6 15 60.8 15 "
     "C 63 15 65 16.5 65 19.5 L 65 40 L 67 40 L 67 27.5 C 67 24.8 68.8 23.4 70.8 23.4 "
     "C 72.8 23.4 74.6 24.8 74.6 27.5 L 74.6 50 C 74.6 57 70 59 70 66 L 70 70 Z"},
    {Ink::paper, 0, "M 33 74 L 73 74 L 75 88 C 62 95.5 44 95.5 31 88 Z"},
};

const std::vector<Curve> goggles = {
    {Ink::mandatory, 0, disc},
    {Ink::paper, 0, face},
    {Ink::mandatory, 5, "M 23 43 L 77 43"},
    {Ink::mandatory, 0,
     "M 30 32 L 70 32 C 74 32 75 34 75 38 L 75 46 C 75 54 71 58 65 58 C 58 58 55 55 53 51 "
     "C 51.5 48.5 48.5 48.5 47 51 C 45 55 42 58 35 58 C 29 58 25 54 25 46 L 25 38 "
     "C 25 34 26 32 30 32 Z"},
    {Ink::paper, 0,
     "M 32 37 L 68 37 C 69.5 37 70 38 70 39.5 L 70 45.5 C 70 50.5 68 53 64.5 53 "
     "C 60.5 53 58.5 51 57 48 C 54 42.5 46 42.5 43 48 C 41.5 51 39.5 53 35.5 53 "
     "C 32 53 30 50.5 30 45.5 L 30 39.5 C 30 38 30.5 37 32 37 Z"},
    {Ink::mandatory, 3, "M 36 48 L 42 41 M 58 46.5 L 64 41"},
};

const std::vector<Curve> mask = {
    {Ink::mandatory, 0, disc},
    {Ink::paper, 0, face},
    {Ink::mandatory, 0,
     "M 43 40 C 43 42.5 41.2 44 39 44 C 36.8 44 35 42.5 35 40 C 35 37.5 36.8 36 39 36 "
     "C 41.2 36 43 37.5 43 40 Z"},
    {Ink::mandatory, 0,
     "M 65 40 C 65 42.5 63.2 44 61 44 C 58.8 44 57 42.5 57 40 C 57 37.5 58.8 36 61 36 "
     "C 63.2 36 65 37.5 65 40 Z"},
    {Ink::mandatory, 3.5,
     "M 50 49 C 58 52 64 54 68 56 L 66 70 C 62 78 56 82 50 82 C 44 82 38 78 34 70 L 32 56 "
     "C 36 54 42 52 50 49 Z"},
    {Ink::mandatory, 3, "M 24.5 51 L 33 56 M 75.5 51 L 67 56 M 28 67 L 35 70 M 72 67 L 65 70"},
    {Ink::mandatory, 2.5, "M 37 62 L 63 62 M 37.5 69 L 62.5 69"},
};

const std::vector<Curve> face_shield = {
    {Ink::mandatory, 0, disc},
    {Ink::paper, 0, face},
    {Ink::mandatory, 0, "M 22 26 L 78 26 L 78 36 L 22 36 Z"},
    {Ink::paper, 3, "M 19 31 L 81 31"},
    {Ink::mandatory, 3.5, "M 29 36 L 29 66 C 33 80 42 89 50 89 C 58 89 67 80 71 66 L 71 36"},
    {Ink::mandatory, 3, "M 38 60 L 50 46 M 47 68 L 60 52"},
};

const std::vector<Curve> apron = {
    {Ink::mandatory, 0, disc},
    {Ink::paper, 0,
     "M 59 17.5 C 59 22.5 55 26.5 50 26.5 C 45 26.5 41 22.5 41 17.5 C 41 12.5 45 8.5 50 8.5 "
     "C 55 8.5 59 12.5 59 17.5 Z"},
    {Ink::paper, 0,
     "M 36 29 L 64 29 C 69 29 72 32 72.5 37 L 75 58 L 68 59 L 66 44 L 66 89 C 56 93.5 44 93.5 34 "
     "89 "
     "L 34 44 L 32 59 L 25 58 L 27.5 37 C 28 32 31 29 36 29 Z"},
    {Ink::mandatory, 3,
     "M 42 29 L 42 42 L 58 42 L 58 29 M 42 42 C 42 50 38 53 35 54 L 35 84 L 65 84 "
     "L 65 54 C 62 53 58 50 58 42"},
};

}  // namespace

std::vector<Curve> curves_of(Pictogram pictogram) {
  switch (pictogram) {
    case Pictogram::gloves:
      return gloves;
    case Pictogram::goggles:
      return goggles;
    case Pictogram::mask:
      return mask;
    case Pictogram::face_shield:
      return face_shield;
    case Pictogram::apron:
      return apron;
    case Pictogram::ghs_oxidiser:
    case Pictogram::ghs_corrosion:
    case Pictogram::ghs_toxic:
    case Pictogram::ghs_exclamation:
    case Pictogram::ghs_health:
    case Pictogram::ghs_environment:
      return ghs_curves(pictogram);
  }
  return {};
}

}  // namespace tub::layout
