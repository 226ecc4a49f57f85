#include "layout/blocks/ghs_pictograms.h"

#include <array>
#include <utility>

namespace tub::layout {
namespace {

using Ink = Curve::Ink;

// The frame is 0.06 of the side wide: along the diagonal 0.06 x 2 x 50 = 6 of the field's 100.
const Curve frame = {Ink::hazard, 0, "M 50 0 L 100 50 L 50 100 L 0 50 Z"};
const Curve field = {Ink::paper, 0, "M 50 6 L 94 50 L 50 94 L 6 50 Z"};

// A flame over a ring, fused at the ring's upper half; a bar below (GHS03).
const std::vector<Curve> oxidiser = {
    frame,
    field,
    {Ink::black, 0,
     "M 41 61 C 35.5 56.5 32.5 50.5 34 44 C 34.8 40.5 36.2 37.5 37 33 C 39.5 36.5 40.5 40 42.5 "
     "43.5 C 41 36.5 43.5 31 47.5 27 C 50 24 51 21 50 15 C 55 20 57.5 26 56 32 C 55.5 35 56 37 "
     "57.5 39 C 59 37 60 33 59.5 28 C 63.5 33 66.8 40 66.5 46.5 C 66.2 52.5 64 57.5 59 61 Z"},
    {Ink::paper, 0,
     "M 47.2 54.2 C 42.5 51.5 41.5 47 43.2 43.5 C 44 46.5 45.5 47.8 47 48.5 C 46.5 43 49 39.5 "
     "52.2 35 C 52.2 40 53.5 42 55 45 C 56.2 48 56 52 52.8 54.2 C 51 53.8 49 53.8 47.2 54.2 Z"},
    {Ink::black, 0,
     "M 61.8 65.5 C 61.8 59 56.5 53.8 50 53.8 C 43.5 53.8 38.2 59 38.2 65.5 C 38.2 72 43.5 "
     "77.2 50 77.2 C 56.5 77.2 61.8 72 61.8 65.5 Z"},
    {Ink::paper, 0,
     "M 57.5 65.5 C 57.5 61.4 54.1 58 50 58 C 45.9 58 42.5 61.4 42.5 65.5 C 42.5 69.6 45.9 73 "
     "50 73 C 54.1 73 57.5 69.6 57.5 65.5 Z"},
    {Ink::black, 0, "M 40 81 L 60 81 L 60 78.8 L 40 78.8 Z"},
};

// Two tilted tubes; drops eat into a bar of metal and into a hand (GHS05).
const std::vector<Curve> corrosion = {
    frame,
    field,
    {Ink::black, 0,
     "M 45.7 35.7 L 31.7 30.8 C 29.5 30 27.1 31.2 26.3 33.4 C 25.5 35.6 26.7 38.1 28.9 38.8 L "
     "42.8 43.8 Z"},
    {Ink::paper, 0, "M 45.7 37.5 L 32.8 32.9 L 30.6 33.2 L 44.3 41.4 Z"},
    {Ink::black, 0, "M 47.1 34.9 L 43.5 45.1 L 41.5 44.4 L 45.1 34.2 Z"},
    {Ink::black, 0,
     "M 42.5 44.2 C 43 45.9 44.5 46.7 44.5 47.8 C 44.5 49 43.6 49.8 42.5 49.8 C 41.4 49.8 40.5 "
     "49 40.5 47.8 C 40.5 46.7 42 45.9 42.5 44.2 Z"},
    {Ink::black, 0,
     "M 42.5 52 C 43 54 44.8 54.9 44.8 56.2 C 44.8 57.6 43.8 58.5 42.5 58.5 C 41.2 58.5 40.2 "
     "57.6 40.2 56.2 C 40.2 54.9 42 54 42.5 52 Z"},
    {Ink::black, 0,
     "M 54.3 35.7 L 68.3 30.8 C 70.5 30 72.9 31.2 73.7 33.4 C 74.5 35.6 73.3 38.1 71.1 38.8 L "
     "57.2 43.8 Z"},
    {Ink::paper, 0, "M 54.3 37.5 L 67.2 32.9 L 69.4 33.2 L 55.7 41.4 Z"},
    {Ink::black, 0, "M 54.9 34.2 L 58.5 44.4 L 56.5 45.1 L 52.9 34.9 Z"},
    {Ink::black, 0,
     "M 57.5 44.2 C 58 45.9 59.5 46.7 59.5 47.8 C 59.5 49 58.6 49.8 57.5 49.8 C 56.4 49.8 55.5 "
     "49 55.5 47.8 C 55.5 46.7 57 45.9 57.5 44.2 Z"},
    {Ink::black, 0,
     "M 57.5 52 C 58 54 59.8 54.9 59.8 56.2 C 59.8 57.6 58.8 58.5 57.5 58.5 C 56.2 58.5 55.2 "
     "57.6 55.2 56.2 C 55.2 54.9 57 54 57.5 52 Z"},
    {Ink::black, 0,
     "M 24 57.8 L 36.2 57.8 L 37.8 60.8 L 39.2 59.5 L 41.8 63.2 L 44 60.2 L 45.8 61.8 L 47.5 "
     "57.8 L 49 57.8 L 49 65.8 L 24 65.8 Z"},
    {Ink::black, 0,
     "M 76.5 56.2 L 71.5 56.2 C 69 55.2 67 55 64.8 55.2 L 63.2 56 L 61.8 59.8 L 60 58.5 L 58 "
     "62.5 L 56 60 L 54.8 60.8 L 53.8 58.8 C 52.5 59 51.2 60 51.2 61.5 C 51.2 63.2 52.5 64 54 "
     "64 C 57 64 59 64.2 61 65 C 59 67 56.5 68.5 54.8 69.8 C 53.2 71.2 55 73.5 57.2 72.5 C 61 "
     "70.8 64.5 68.8 67.5 67 C 70 65.8 72 65.2 76.5 65 Z"},
    {Ink::black, 2, "M 36.2 55.8 C 34.5 53.8 38 51.8 36.2 49.8"},
    {Ink::black, 2, "M 33 55.8 C 31.2 54.2 34.8 52.8 33 51.2"},
    {Ink::black, 2, "M 64.2 53.5 C 62.5 51.5 66 49.5 64.2 47.5"},
    {Ink::black, 2, "M 67.5 53.5 C 65.7 52 69.3 50.5 67.5 49"},
};

// A skull over two crossed bones (GHS06).
const std::vector<Curve> toxic = {
    frame,
    field,
    {Ink::black, 0, "M 66 59 L 36 72 L 34 67.5 L 64 54.5 Z"},
    {Ink::black, 0,
     "M 67.6 54 C 67.6 52.3 66.2 50.9 64.5 50.9 C 62.7 50.9 61.4 52.3 61.4 54 C 61.4 55.7 62.7 "
     "57.1 64.5 57.1 C 66.2 57.1 67.6 55.7 67.6 54 Z"},
    {Ink::black, 0,
     "M 69.7 59 C 69.7 57.3 68.4 55.9 66.6 55.9 C 64.9 55.9 63.5 57.3 63.5 59 C 63.5 60.7 64.9 "
     "62.1 66.6 62.1 C 68.4 62.1 69.7 60.7 69.7 59 Z"},
    {Ink::black, 0,
     "M 36.5 67.5 C 36.5 65.8 35.1 64.4 33.4 64.4 C 31.6 64.4 30.3 65.8 30.3 67.5 C 30.3 69.2 "
     "31.6 70.6 33.4 70.6 C 35.1 70.6 36.5 69.2 36.5 67.5 Z"},
    {Ink::black, 0,
     "M 38.6 72.5 C 38.6 70.8 37.3 69.4 35.5 69.4 C 33.8 69.4 32.4 70.8 32.4 72.5 C 32.4 74.2 "
     "33.8 75.6 35.5 75.6 C 37.3 75.6 38.6 74.2 38.6 72.5 Z"},
    {Ink::black, 0, "M 36 54.5 L 66 67.5 L 64 72 L 34 59 Z"},
    {Ink::black, 0,
     "M 36.5 59 C 36.5 57.3 35.1 55.9 33.4 55.9 C 31.6 55.9 30.3 57.3 30.3 59 C 30.3 60.7 31.6 "
     "62.1 33.4 62.1 C 35.1 62.1 36.5 60.7 36.5 59 Z"},
    {Ink::black, 0,
     "M 38.6 54 C 38.6 52.3 37.3 50.9 35.5 50.9 C 33.8 50.9 32.4 52.3 32.4 54 C 32.4 55.7 33.8 "
     "57.1 35.5 57.1 C 37.3 57.1 38.6 55.7 38.6 54 Z"},
    {Ink::black, 0,
     "M 67.6 72.5 C 67.6 70.8 66.2 69.4 64.5 69.4 C 62.7 69.4 61.4 70.8 61.4 72.5 C 61.4 74.2 "
     "62.7 75.6 64.5 75.6 C 66.2 75.6 67.6 74.2 67.6 72.5 Z"},
    {Ink::black, 0,
     "M 69.7 67.5 C 69.7 65.8 68.4 64.4 66.6 64.4 C 64.9 64.4 63.5 65.8 63.5 67.5 C 63.5 69.2 "
     "64.9 70.6 66.6 70.6 C 68.4 70.6 69.7 69.2 69.7 67.5 Z"},
    {Ink::paper, 0,
     "M 40.5 44.5 L 40.8 53 C 42.2 57 45.5 57.8 50 57.8 C 54.5 57.8 57.8 57 59.2 53 L 59.5 "
     "44.5 Z"},
    {Ink::black, 0,
     "M 42.5 44.5 C 36.5 43 34.5 38.5 35 33 C 35.5 24.5 42 18.5 50 18.5 C 58 18.5 64.5 24.5 65 "
     "33 C 65.5 38.5 63.5 43 57.5 44.5 L 57 52 C 56 54.5 53.5 55.2 50 55.2 C 46.5 55.2 44 54.5 "
     "43 52 Z"},
    {Ink::paper, 0,
     "M 47.9 36.9 C 48.5 34.2 47.1 31.5 44.7 30.9 C 42.3 30.3 39.8 32 39.1 34.6 C 38.5 37.3 "
     "39.9 40 42.3 40.6 C 44.7 41.2 47.2 39.5 47.9 36.9 Z"},
    {Ink::paper, 0,
     "M 60.9 34.6 C 60.2 32 57.7 30.3 55.3 30.9 C 52.9 31.5 51.5 34.2 52.1 36.9 C 52.8 39.5 "
     "55.3 41.2 57.7 40.6 C 60.1 40 61.5 37.3 60.9 34.6 Z"},
    {Ink::paper, 0, "M 50 40 L 52.5 44.8 L 47.5 44.8 Z"},
    {Ink::paper, 0, "M 45.5 47.5 L 46.6 47.5 L 46.6 53 L 45.5 53 Z"},
    {Ink::paper, 0, "M 48.1 47.5 L 49.2 47.5 L 49.2 53 L 48.1 53 Z"},
    {Ink::paper, 0, "M 50.8 47.5 L 51.9 47.5 L 51.9 53 L 50.8 53 Z"},
    {Ink::paper, 0, "M 53.4 47.5 L 54.5 47.5 L 54.5 53 L 53.4 53 Z"},
};

// An exclamation mark (GHS07).
const std::vector<Curve> exclamation = {
    frame,
    field,
    {Ink::black, 0,
     "M 44.2 26 C 44.2 22 46.8 20 50 20 C 53.2 20 55.8 22 55.8 26 L 53.2 55 C 53 57.5 51.8 "
     "58.8 50 58.8 C 48.2 58.8 47 57.5 46.8 55 Z"},
    {Ink::black, 0,
     "M 55.8 69.2 C 55.8 66.1 53.2 63.5 50 63.5 C 46.8 63.5 44.2 66.1 44.2 69.2 C 44.2 72.4 "
     "46.8 75 50 75 C 53.2 75 55.8 72.4 55.8 69.2 Z"},
};

// Head and shoulders with a white star on the chest (GHS08).
const std::vector<Curve> health = {
    frame,
    field,
    {Ink::black, 0,
     "M 57.5 28.5 C 57.5 23.4 54.1 19.2 50 19.2 C 45.9 19.2 42.5 23.4 42.5 28.5 C 42.5 33.6 "
     "45.9 37.8 50 37.8 C 54.1 37.8 57.5 33.6 57.5 28.5 Z"},
    {Ink::black, 0,
     "M 46.2 35 C 46.2 39 44.5 40 40.5 41 C 35.5 42.2 33 44.5 32 49 L 30 60 L 32 73 L 68 73 L "
     "70 60 L 68 49 C 67 44.5 64.5 42.2 59.5 41 C 55.5 40 53.8 39 53.8 35 Z"},
    {Ink::paper, 0,
     "M 50 40.5 L 49 51.9 L 45.8 48.1 L 47.3 52.8 L 37 48 L 46.4 54.5 L 41.5 55.5 L 46.4 56.5 "
     "L 37 63 L 47.3 58.2 L 45.8 62.9 L 49 59.1 L 50 70.5 L 51 59.1 L 54.2 62.9 L 52.7 58.2 L "
     "63 63 L 53.6 56.5 L 58.5 55.5 L 53.6 54.5 L 63 48 L 52.7 52.8 L 54.2 48.1 L 51 51.9 Z"},
};

// A bare tree on a line of ground, a dead fish below it (GHS09).
const std::vector<Curve> environment = {
    frame,
    field,
    {Ink::black, 0,
     "M 20 60 C 30 58.5 39 60.8 47.5 59.5 C 54 58.5 58 61.2 64 60 C 70 58.8 74 60 80 59.5 L "
     "78.5 62 C 73 62.2 69 61.2 64 62.5 C 58 63.8 54 61 47.5 62 C 39 63.2 30 61 21.5 62.5 Z"},
    {Ink::black, 0,
     "M 34.5 61 C 36.8 58 37.5 54 37.2 49 L 43.5 48.5 L 43.5 48.5 C 42.5 54 43 58 47 61 Z"},
    {Ink::black, 0,
     "M 37 50.2 L 37.4 42.3 L 40 34 L 39.3 27.1 L 40.2 23 L 40.8 23 L 40.7 26.9 L 43 34 L 41.6 "
     "42.7 L 43 49.8 Z"},
    {Ink::black, 0,
     "M 38.1 50.6 L 34.3 44.6 L 30.1 39.7 L 27.7 33.7 L 28.3 33.3 L 31.9 38.3 L 36.7 42.4 L "
     "41.9 47.4 Z"},
    {Ink::black, 0, "M 33.5 42.8 L 28.4 42.2 L 23.4 39.8 L 23.6 39.2 L 28.6 40.8 L 33.5 40.2 Z"},
    {Ink::black, 0,
     "M 39 46.5 L 44.1 41.1 L 47.4 36.2 L 48.1 30 L 48.9 30 L 49.6 36.8 L 46.9 42.9 L 43 49.5 "
     "Z"},
    {Ink::black, 0, "M 45.9 39.4 L 50.4 37.3 L 54.8 33.3 L 55.2 33.7 L 51.6 38.7 L 47.1 41.6 Z"},
    {Ink::black, 0, "M 40.5 34.2 L 44.8 29.7 L 45.7 26 L 46.3 26 L 46.2 30.3 L 42.5 35.8 Z"},
    {Ink::black, 0, "M 39 39.7 L 35.3 33.4 L 33.7 28.1 L 34.3 27.9 L 36.7 32.6 L 41 38.3 Z"},
    {Ink::black, 0,
     "M 43.7 43.8 L 50.1 42.6 L 54.8 45.6 L 56.2 48.9 L 55.8 49.1 L 54.2 46.4 L 49.9 44.4 L "
     "44.3 46.2 Z"},
    {Ink::black, 0,
     "M 38.5 71.2 C 41.5 65.8 50 64.5 57.5 69.5 L 63.5 65.5 C 61.8 69.2 61.8 73.2 63.5 77 L "
     "57.5 73 C 50 78 41.5 76.8 38.5 71.2 Z"},
    {Ink::paper, 0,
     "M 44.2 71.5 C 44.2 70.7 43.6 70 42.8 70 C 41.9 70 41.2 70.7 41.2 71.5 C 41.2 72.3 41.9 "
     "73 42.8 73 C 43.6 73 44.2 72.3 44.2 71.5 Z"},
    {Ink::paper, 1.7, "M 46.5 67.5 C 48.2 69.8 48.2 72.8 46.5 75"},
};

constexpr std::array<std::pair<std::string_view, Pictogram>, 6> codes = {{
    {"GHS03", Pictogram::ghs_oxidiser},
    {"GHS05", Pictogram::ghs_corrosion},
    {"GHS06", Pictogram::ghs_toxic},
    {"GHS07", Pictogram::ghs_exclamation},
    {"GHS08", Pictogram::ghs_health},
    {"GHS09", Pictogram::ghs_environment},
}};

}  // namespace

std::vector<Curve> ghs_curves(Pictogram pictogram) {
  switch (pictogram) {
    case Pictogram::ghs_oxidiser:
      return oxidiser;
    case Pictogram::ghs_corrosion:
      return corrosion;
    case Pictogram::ghs_toxic:
      return toxic;
    case Pictogram::ghs_exclamation:
      return exclamation;
    case Pictogram::ghs_health:
      return health;
    case Pictogram::ghs_environment:
      return environment;
    case Pictogram::gloves:
    case Pictogram::goggles:
    case Pictogram::mask:
    case Pictogram::face_shield:
    case Pictogram::apron:
      return {};
  }
  return {};
}

bool is_ghs(Pictogram pictogram) { return !ghs_curves(pictogram).empty(); }

std::optional<Pictogram> pictogram_of(std::string_view ghs_code) {
  for (const auto& [code, pictogram] : codes) {
    if (code == ghs_code) return pictogram;
  }
  return std::nullopt;
}

}  // namespace tub::layout
