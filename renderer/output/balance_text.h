// What `dapple balance` has found, as JSON and as tables to read.
#pragma once

#include <string>

#include "rebalance/balance.h"

namespace dapple {

// `after`: the film rebalanced to the found dimmers.
std::string balance_json_text(const Balance& balance,
                              const FilmRecord& before,
                              const FilmRecord& after);
std::string balance_table_text(const Balance& balance,
                               const FilmRecord& before,
                               const FilmRecord& after);

}  // namespace dapple
