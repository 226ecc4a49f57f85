#include "app/clock.h"

#include <fmt/format.h>

#include <chrono>
#include <cstdlib>

#include "base/error.h"
#include "base/text.h"

namespace tub::app {
namespace {

std::chrono::seconds since_epoch() {
  const char* const fixed_time = std::getenv("SOURCE_DATE_EPOCH");
  if (fixed_time == nullptr || *fixed_time == '\0') {
    return std::chrono::duration_cast<std::chrono::seconds>(
        std::chrono::system_clock::now().time_since_epoch());
  }
  const auto seconds = to_number(fixed_time);
  constexpr double latest = 4102444799;  // the last second of 2099
  if (seconds && *seconds >= 946684800 && *seconds <= latest) {
    return std::chrono::seconds(static_cast<std::int64_t>(*seconds));
  }
  throw Error({fmt::format("SOURCE_DATE_EPOCH is \"{}\"", fixed_time),
               "the environment",
               {},
               "set it to seconds since 1970, from 2000 to 2099, or unset it",
               Fault::machine});
}

}  // namespace

CalendarDate today() {
  const std::chrono::year_month_day date(
      std::chrono::floor<std::chrono::days>(std::chrono::sys_seconds(since_epoch())));
  return {static_cast<int>(date.year()), static_cast<int>(static_cast<unsigned>(date.month())),
          static_cast<int>(static_cast<unsigned>(date.day()))};
}

}  // namespace tub::app
