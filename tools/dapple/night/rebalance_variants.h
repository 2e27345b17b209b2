// The variants that differ from another one only in light are made from its film.
#pragma once

#include "night/night_files.h"

namespace dapple {

// Makes those whose film has more passes than they show, and says in each state what went wrong.
// The film is read once for all that are made of it. Throws DiskError.
void rebalance_variants(const NightPlan& plan,
                        const std::string& folder,
                        std::vector<NightVariantState>& states);

}  // namespace dapple
