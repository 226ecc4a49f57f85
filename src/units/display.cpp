#include "units/display.h"

namespace tub {}
