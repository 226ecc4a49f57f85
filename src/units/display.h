// The units that people write: what each means, for each kind of quantity.
#pragma once
