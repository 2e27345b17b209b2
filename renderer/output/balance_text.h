// What `dapple balance` has found, as JSON and as tables to read.
#pragma once

#include <string>
#include <vector>

#include "rebalance/why_missed.h"

namespace dapple {

// `after`: the film rebalanced to the found dimmers. `reasons` and
// `wanting`: of rebalance/why_missed.h.
std::string balance_json_text(const Balance& balance,
                              const FilmRecord& before,
                              const FilmRecord& after,
                              const std::vector<std::string>& reasons,
                              const std::vector<Wanting>& wanting);
std::string balance_table_text(const Balance& balance,
                               const FilmRecord& before,
                               const FilmRecord& after,
                               const std::vector<std::string>& reasons,
                               const std::vector<Wanting>& wanting);

}  // namespace dapple
