// Why a balance misses targets: what the lamps cannot give, and which targets contradict others.
#pragma once

#include <string>
#include <vector>

#include "rebalance/balance.h"

namespace dapple {

// A clause for each result: "" if it is reached, else
//   "alone it gets to f/2.8, with key at full"        no dimmers give it
//   "conflicts with key:fill = 4"                     each alone can be met, both together not
//   "can be met alone, but not with all the others"   no single one contradicts it
// Each target alone and each pair with it is balanced again.
std::vector<std::string> why_missed(const FilmRecord& film,
                                    const std::vector<size_t>& kept,
                                    const Balance& balance);

}  // namespace dapple
