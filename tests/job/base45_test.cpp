// Base45 against the examples of its specification.
#include "job/label_code/base45.h"

#include <catch2/catch.hpp>

namespace tub::job {
namespace {

TEST_CASE("bytes become the characters that RFC 9285 gives as examples") {
  // Source: RFC 9285, section 4.3 (encoding) and 4.4 (decoding)
  CHECK(to_base45("AB") == "BB8");
  CHECK(to_base45("Hello!!") == "%69 VD92EX0");
  CHECK(to_base45("base-45") == "UJCLQE7W581");
  CHECK(from_base45("QED8WEX0").bytes == "ietf!");
}

TEST_CASE("every byte and pair of bytes comes back") {
  for (int high = 0; high < 256; ++high) {
    const std::string one(1, static_cast<char>(high));
    CHECK(from_base45(to_base45(one)).bytes == one);
    for (int low = 0; low < 256; ++low) {
      const std::string pair = one + static_cast<char>(low);
      if (from_base45(to_base45(pair)).bytes != pair) FAIL("bytes " << high << ' ' << low);
    }
  }
  CHECK(to_base45("").empty());
  CHECK(from_base45("").bytes.empty());
}

TEST_CASE("a damaged text is told with its place") {
  struct Damaged {
    const char* text;
    std::size_t at;
    const char* message;
  };
  // Source: RFC 9285, section 6: FGW stands for 65535, GGW for 65536
  CHECK(from_base45("FGW").bytes == "\xFF\xFF");
  for (const Damaged& row :
       {Damaged{"GGW", 1, "\"GGW\" at character 1 stands for 65536, above 65535"},
        Damaged{"BB8:::", 4, "\":::\" at character 4 stands for 91124, above 65535"},
        Damaged{"BB8U5", 4, ""},
        Damaged{"BB8V5", 4, "\"V5\" at character 4 stands for 256, above 255"},
        Damaged{"BBb", 3, "character 3 is none of the 45"},
        Damaged{"BB8B", 4, "a character is missing at the end"}}) {
    CAPTURE(row.text);
    const Base45Bytes read = from_base45(row.text);
    if (std::string(row.message).empty()) {
      CHECK_FALSE(read.fault.has_value());  // U5 stands for 255, the last byte
      continue;
    }
    REQUIRE(read.fault.has_value());
    CHECK(read.fault->at == row.at);
    CHECK(read.fault->message == row.message);
    CHECK(read.bytes.empty());
  }
}

}  // namespace
}  // namespace tub::job
