// The texts that a label's code refers to instead of spelling them out.
#pragma once

#include <string_view>

#include "base/modules.h"

namespace tub::job {

/// The preset dictionary (RFC 1951, RFC 1950 section 2.2) of code version 1: names of fields,
/// identifiers and units, the commonest last, in the form of a canonical job.
///
/// It never changes: a label printed today is read for as long as its tub stands. Other words need
/// another version. Published in docs/label-code.md.
inline constexpr std::string_view label_code_dictionary =
    R"("after_pour":1,"after_round":2,"after_step":3,"date":"2026-"hazard_statements":["H272",)"
    R"("H302","H314","H318","H319","H335","H400","H410"],"made_on":"20"set":"common_practice",)"
    R"("total_alkalinity":{"bathe_low":"","high":"","ideal":"","low":"","stop":""kind":"dichlor",)"
    R"("mineral_cartridge":true},"give_or_take":"5 %","value":""dilution":{"after":"",)"
    R"("amount":"","before":"","product":"","reading":"calcium_hardness"},)"
    R"("fill":{"flow":"15 L/min","time":"90 min"},"shell":""diameter":"2 m","shape":"round",)"
    R"("water_depth":"0.8 m"},"shell":""dimensions":{"benches":[{"height":"0.4 m","length":"2 m",)"
    R"("width":"0.4 m"}],"length":"2 m","shape":"rectangle","oval","water_depth":"0.8 m",)"
    R"("width":"2 m"},"shell":""bathers_per_week":20,"bathing_temperature":"104 °F",)"
    R"("volume":"400 US gal" °fH °e mmol/L ppm meq/L mg/L as Ca m3 imp gal in ft cm"cyanuric_acid)"
    R"(":"30 mg/L","dissolved_solids":""free_chlorine":""total_chlorine":""tub_water":{"second_so)"
    R"(urce":{"readings":[{"magnesium_hardness":""manganese":"0.0 mg/L",)"
    R"("nitrate":""potassium":""sodium":""chloride":""sulfate":""rotomoulded","vinyl",)"
    R"("fibreglass","stainless_steel","timber","tile","use":"public","use":"rented",)"
    R"("measure":"ounces","grams","grams_and_metric_spoons","retest_with":""sanitizer":"two_step_)"
    R"(bromine","dichlor_then_hypochlorite","calcium_hypochlorite","bromine_tablets",)"
    R"("sodium_bromide","peroxymonosulfate","cyanuric_acid","boric_acid","borax","trichlor",)"
    R"("dichlor_anhydrous","calcium_chloride_anhydrous",{"bulk_density":"0.95 g/mL",)"
    R"("package":"2 kg","product":"calcium_hypochlorite","strength":"65 % w/w as Cl2"},)"
    R"("strength":"77 % w/w as CaCl2"},{"measure":"ounces_and_us_spoons",)"
    R"("retest_with":"photometer","rules":"clp","hazcom","sanitizer":"sodium_hypochlorite",)"
    R"("shelf":["{"product":"muriatic_acid","strength":"31.45 % w/w as HCl"},)"
    R"("sodium_bicarbonate",{"product":"sodium_hypochlorite","strength":"12.5 g/100 mL as Cl2"},)"
    R"({"dose":"2 fl oz per 500 US gal","product":"sequestrant"}],"source_water":{"conductivity":)"
    R"(""iron":"0.1 mg/L","ph":7.5,"temperature":"57 °F","tested_with":"strip",)"
    R"("total_alkalinity":"100 mg/L as CaCO3","total_hardness":"12 °dH"},)"
    R"("targets":"common_practice","tubwright":1,"vessel":{"{"measure":"grams_and_us_spoons",)"
    R"("retest_with":"drop_kit","sanitizer":"dichlor","shelf":["sodium_bicarbonate","dry_acid",)"
    R"("soda_ash","dichlor_dihydrate","sodium_hypochlorite","calcium_chloride_dihydrate",)"
    R"({"dose":"45 mL per 1000 L","product":"sequestrant"}],"source_water":{"calcium_hardness":")"
    R"(5 °dH","chloride":"20 mg/L","conductivity":"310 µS/cm","copper":"0.0 mg/L",)"
    R"("iron":{"tested_with":"photometer","value":"0.3 mg/L"},"ph":7.2,"temperature":"14 °C",)"
    R"("tested_with":"strip","total_alkalinity":"80 mg/L as CaCO3"},"targets":"common_practice",)"
    R"("tubwright":1,"vessel":{"bathers_per_week":10,"bathing_temperature":"38 °C",)"
    R"("shell":"acrylic","use":"private","volume":"1200 L"}})";

}  // namespace tub::job
