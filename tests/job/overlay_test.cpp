#include <fmt/format.h>

#include <catch2/catch.hpp>

#include "job_test.h"

using namespace tub;
using namespace tub::job;
using namespace tub::job::test;

namespace {

const std::string shop = R"({
  "heading": { "prepared_by": { "name": "Thrushwater Tubs", "phone": "555-0142", "logo": "logo.png" } },
  "measure": "grams_and_us_spoons",
  "language": "en",
  "stocks": { "startup_card": "letter" },
  "products": [ { "product": "sequestrant", "dose": "45 mL per 1000 L" },
                { "product": "dry_acid", "bulk_density": "1.4 g/mL" } ]
})";

}  // namespace

TEST_CASE("what the shop sets once fills in what a job does not say") {
  const Job job = read(patched(R"({ "measure": null,
      "heading": { "prepared_by": { "phone": "555-0199" } },
      "shelf": [ "sodium_bicarbonate", "sequestrant", "dry_acid" ] })"),
                       shop)
                      .value;
  CHECK(job.heading.shop_name == "Thrushwater Tubs");
  CHECK(job.heading.shop_phone == "555-0199");
  CHECK(job.request.measure.id == "grams_and_us_spoons");
  CHECK(job.request.shelf.at(1).dose_ml_per_1000_l == Approx(45));
  CHECK(job.request.shelf.at(2).product.bulk_density_g_ml == Approx(1.4));
  CHECK(job.language == "en");
  CHECK(job.stocks.at("startup_card").name == "letter");
}

TEST_CASE("what a job says stays, whatever the shop sets") {
  CHECK(read(patched(R"({ "measure": "ounces" })"), shop).value.request.measure.id == "ounces");
}

TEST_CASE("a logo is looked for beside the file that names it") {
  const Job from_shop = read(patched("{}"), shop).value;
  CHECK(from_shop.logo->base == "shop.json");
  CHECK(from_shop.logo->where == "shop.json: /heading/prepared_by/logo");
  const Job own =
      read(patched(R"({ "heading": { "prepared_by": { "logo": "own.png" } } })"), shop).value;
  CHECK(own.logo->base == "job.json");
}

TEST_CASE("a fault of the shop's file is told once, at its place there") {
  CHECK(problems_of(patched(R"({ "measure": null })"),
                    R"({ "measure": "spoons", "produkts": [] })") ==
        "error: the field \"produkts\" is not known here\n"
        "  where: shop.json: /produkts\n"
        "  help:  did you mean products?\n"
        "error: there is no measure \"spoons\"\n"
        "  where: shop.json: /measure\n"
        "  help:  did you mean grams_and_us_spoons?\n");
}

TEST_CASE("faults of a job and of its shop's file are told together") {
  const std::string said = problems_of("{", R"({ "vessel": {} })");
  CHECK(said.find("job.json: line 1, column 2") != std::string::npos);
  CHECK(said.find("shop.json: /vessel") != std::string::npos);
}

TEST_CASE("figures of the shop's product that cannot be are told at the shop's place") {
  CHECK(problems_of(patched(R"({ "shelf": [ "sodium_bicarbonate", "sequestrant" ] })"),
                    R"({ "products": [ { "product": "sequestrant", "dose": "45" } ] })")
            .find("shop.json: /products/0/dose") != std::string::npos);
}

TEST_CASE("a shop's printers are read with what 100 mm of theirs measure") {
  const Job job = read(patched("{}"), R"({
    "printer": { "right": "0.4 mm", "down": "-0.2 mm", "across_100_mm": "100.2 mm" },
    "printers": [ { "name": "counter", "down": "1.5 mm" } ] })")
                      .value;
  REQUIRE(job.printers.size() == 2);
  CHECK(job.printers[0].name.empty());
  CHECK(job.printers[0].right_mm == Approx(0.4));
  CHECK(job.printers[0].down_mm == Approx(-0.2));
  CHECK(job.printers[0].across_100_mm == Approx(100.2));
  CHECK(job.printers[0].down_100_mm == 100);
  CHECK(job.printers[1].name == "counter");
  CHECK(job.printers[1].down_mm == Approx(1.5));
}

TEST_CASE("a printer that is further off than printers are is refused at its place") {
  CHECK(problems_of(patched("{}"), R"({ "printer": { "right": "5.1 mm" },
                                        "printers": [ { "name": "counter", "down": "1 mm",
                                                        "down_100_mm": "97.5 mm" },
                                                      { "name": "counter" } ] })") ==
        "error: the printer is 5.1 mm off, and at most 5 mm are corrected\n"
        "  where: shop.json: /printer/right\n"
        "  help:  print the alignment page at 100 %, unscaled, and measure again\n"
        "error: the printer is -2.5 mm off, and at most 2 mm are corrected\n"
        "  where: shop.json: /printers/0/down_100_mm\n"
        "  help:  print the alignment page at 100 %, unscaled, and measure again\n"
        "error: the printer \"counter\" stands twice\n"
        "  where: shop.json: /printers/1\n"
        "  help:  keep one of them\n");
}

TEST_CASE("a shop sets its country and its poison centre once") {
  const std::string with_country = R"({ "country": "GB",
      "heading": { "prepared_by": { "poison_centre": { "name": "Poisons line", "phone": "555-0100" } } } })";
  const Job job = read(patched("{}"), with_country).value;
  REQUIRE(job.heading.country);
  CHECK(job.heading.country->emergency == "999");
  CHECK(job.heading.poison_centre_name == "Poisons line");
  CHECK(job.heading.poison_centre_phone == "555-0100");
  CHECK(read(patched(R"({ "country": "FR" })"), with_country).value.heading.country->id == "FR");
  CHECK_FALSE(read(patched("{}")).value.heading.country);
}

TEST_CASE("a country that is not written as ISO 3166 is told what to write") {
  const auto help_for = [](const std::string& written) {
    return problems_of(patched(R"({ "country": ")" + written + R"(" })"));
  };
  for (const auto& [written, code] : {std::pair{"UK", "GB"}, std::pair{"usa", "US"},
                                      std::pair{"Germany", "DE"}, std::pair{"gb", "GB"}}) {
    CAPTURE(written);
    CHECK(help_for(written) == fmt::format("error: there is no country \"{}\"\n"
                                           "  where: job.json: /country\n"
                                           "  help:  write {}\n",
                                           written, code));
  }
  CHECK(help_for("QQ").find("without the field, the sheets have a line for the emergency number") !=
        std::string::npos);
}
