// A namespace a module: each sees those below it, as docs/architecture.md draws
// them, and none sees one above. `base` and `units` are the ground,
// `tub` itself; `export` is a word of the language, so its namespace is `exporting`.
#pragma once

namespace tub {

namespace chemistry {}
namespace planning {
using namespace chemistry;
}
namespace job {
using namespace planning;
}
namespace water {
using namespace job;
}
namespace why {
using namespace job;
}

namespace document {}
namespace labels {
using namespace planning;
using namespace document;
}  // namespace labels
namespace layout {
using namespace document;
}
namespace sheets {
using namespace labels;
}
namespace exporting {
using namespace layout;
}

namespace app {
using namespace water;
using namespace why;
using namespace sheets;
using namespace exporting;
}  // namespace app

}  // namespace tub
