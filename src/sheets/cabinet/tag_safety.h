// What a dose tag says of its product's dangers: what it never meets, what protects.
#pragma once

#include <string>

#include "document/words.h"
#include "sheets/template/wording.h"

namespace tub::sheets {

/// The partners on this shelf that a product must never meet, by what happens, the worst first:
/// "with dichlor, liquid chlorine: poison gas; soda ash: splashes." Without a dangerous partner it
/// still meets none.
Words never_meets(const Wording& wording, const std::string& product);

/// The same, of the worst severity only; empty if that is all of `never_meets`.
Words never_meets_worst(const Wording& wording, const std::string& product);

/// "Wear gloves, goggles, dust mask." as the product asks.
Words protection_of(const Wording& wording, const Product& product);

}  // namespace tub::sheets
