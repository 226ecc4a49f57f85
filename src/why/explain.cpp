#include "why/explain.h"

#include <fmt/format.h>

#include "base/error.h"
#include "why/asking.h"

namespace tub::why {
namespace {

std::string joined(const std::vector<std::string>& pointers) {
  std::string text;
  for (const std::string& pointer : pointers) text += (text.empty() ? "" : ", ") + pointer;
  return text;
}

Error no_number(const std::string& pointer, const Flat& plan) {
  const bool is_there = plan.has(pointer);
  return Error({fmt::format("\"{}\" leads to {}", pointer,
                            is_there ? "no number of this plan" : "nothing in this plan"),
                "--why",
                {},
                "nearest are: " + joined(nearest_pointers(pointer, plan)),
                Fault::command_line});
}

}  // namespace

Chain explain(const std::string& pointer, const Job& job, const Catalogue& catalogue,
              const Plan& plan) {
  Asking asking(job, catalogue, plan);
  if (!asking.in_plan().number(pointer)) throw no_number(pointer, asking.in_plan());
  return asking.take(pointer);
}

}  // namespace tub::why
