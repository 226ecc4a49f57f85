// The PDF as bytes: repeats, limits, errors. What other programs make of it is asked by
// check_pdf.py.
#include "export/pdf.h"

#include <catch2/catch.hpp>

#include "base/error.h"
#include "export/pdf_drawing.h"
#include "export_test.h"

namespace tub::exporting {
namespace {

std::size_t count(const std::string& text, std::string_view part) {
  std::size_t found = 0;
  for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1))
    ++found;
  return found;
}

TEST_CASE("the same pages give the same PDF to the byte") {
  const std::vector<Page> pages = sample_pages();
  const bool is_repeatable = sample_pdf(pages) == sample_pdf(pages);
  CHECK(is_repeatable);
}

TEST_CASE("a PDF holds as many pages as it was given, and no clock") {
  const std::vector<Page> pages = sample_pages();
  const std::string pdf = sample_pdf(pages);
  CHECK(count(pdf, "/Type /Page\n") + count(pdf, "/Type /Page ") == 2);
  CHECK(count(pdf, "(D:20260504000000+00'00')") == 2);
  CHECK(count(pdf, "(D:") == 2);
}

TEST_CASE("a file says of itself what its first page does") {
  Page page = sample_page();
  page.properties = {"Thrushwater Tubs", "Startup card", "7K4Q-M2", {2026, 5, 4}};
  const PdfProperties properties = properties_of(page, "tubwright 0.1.0");
  const std::string packet = xmp_packet(properties);
  CHECK_THAT(packet, Catch::Contains("Garden tub &amp; \u201Cspa\u201D &lt;A&gt;</rdf:li>"));
  CHECK_THAT(packet, Catch::Contains("<rdf:Seq><rdf:li>Thrushwater Tubs</rdf:li></rdf:Seq>"));
  CHECK_THAT(packet, Catch::Contains("<pdf:Keywords>7K4Q-M2</pdf:Keywords>"));
  CHECK_THAT(packet, Catch::Contains("<xmp:CreateDate>2026-05-04T00:00:00+00:00<"));
  CHECK(pdf_date(properties.date) == "D:20260504000000+00'00'");
}

TEST_CASE("only the faces that a page uses are embedded, named by the characters it shows") {
  Page page = sample_page();
  const auto names = [](const Page& drawn) {
    std::vector<std::string> tags;
    for (const DrawnFace& face : draw_pdf({&drawn, 1}, test_fonts()).faces)
      tags.push_back(face.subset_tag);
    return tags;
  };
  const std::vector<std::string> both = names(page);
  REQUIRE(both.size() == 2);
  CHECK(both[0] != both[1]);
  std::erase_if(page.items, [](const Item& item) {
    const auto* run = std::get_if<TextRun>(&item);
    return run != nullptr && run->face == Face::bold;
  });
  CHECK(names(page) == std::vector<std::string>{both[0]});
  page.items.emplace_back(TextRun{Face::regular, 9, {10, 10}, 5, "\u00F1", {}, artifact});
  REQUIRE(names(page).size() == 1);
  CHECK(names(page)[0] != both[0]);
}

TEST_CASE("neighbouring items of one element are one marked content, others each their own") {
  Page page;
  page.width = page.height = 100;
  page.elements = {Element::of(Role::section, -1), Element::of(Role::paragraph, 0),
                   Element::of(Role::paragraph, 0)};
  for (const int of : {1, 1, artifact, 2, 1})
    page.items.emplace_back(Box{{0, 0}, 5, 5, Colour{}, {}, of});
  const Drawing drawing = draw_pdf({&page, 1}, test_fonts());
  CHECK(drawing.pages.at(0).marks == std::vector<int>{1, 2, 1});
  CHECK(count(drawing.bytes, " BDC\n") == 3);
  CHECK(count(drawing.bytes, "/Artifact BMC\n") == 1);
  CHECK(count(drawing.bytes, "EMC\n") == 4);
}

TEST_CASE("a character that layout should have refused is named with its text") {
  Page page = sample_page();
  page.items.emplace_back(TextRun{Face::bold, 9, {10, 10}, 5, "tub \u6D74", {}, artifact});
  CHECK_THROWS_WITH(sample_pdf({&page, 1}),
                    Catch::Contains("U+6D74, which NotoSans-Bold.ttf lacks") &&
                        Catch::Contains("\"tub \u6D74\""));
  page.items.back() = TextRun{Face::bold, 9, {10, 10}, 5, "\xFF", {}, artifact};
  CHECK_THROWS_WITH(sample_pdf({&page, 1}), Catch::Contains("not UTF-8"));
}

TEST_CASE("what libharu refuses is an error that names the page") {
  std::vector<Page> pages = sample_pages();
  pages[1].items.emplace_back(TextRun{Face::bold, 601, {10, 10}, 5, "A", {}, artifact});
  CHECK_THROWS_WITH(sample_pdf(pages), Catch::Contains("libharu reports error 0x") &&
                                           Catch::Contains("drawing page 2 of 2 of startup_card"));
}

TEST_CASE("a PDF of no page, and one of more than its arrays hold, is refused") {
  CHECK_THROWS_WITH(sample_pdf({}), Catch::Contains("one PDF holds 1 to 4095 pages, not 0"));
  const std::vector<Page> pages(4096, Page{});
  CHECK_THROWS_WITH(sample_pdf(pages), Catch::Contains("not 4096"));
}

}  // namespace
}  // namespace tub::exporting
