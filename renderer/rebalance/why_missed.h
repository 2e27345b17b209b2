// Why a balance misses targets: what the lamps cannot give, and which targets contradict others.
#pragma once

#include <string>
#include <vector>

#include "rebalance/balance.h"

namespace dapple {

// A clause for each result: "" if it is reached, else
//   "alone it gets to f/2.8, with key at full"        no dimmers give it
//   "can be met alone, but conflicts with "key:fill = 4""
//   "can be met alone, but not with all the others"   no single one conflicts with it
// Each target alone and each pair with it is balanced again.
std::vector<std::string> why_missed(const FilmRecord& film,
                                    const std::vector<size_t>& kept,
                                    const Balance& balance);

// A fixture that would have to give more light than it has.
struct Wanting {
    size_t fixture = 0;
    double stops = 0;  // above full
};

// With which fixtures' light above full every target would be reached; empty if all are reached, or
// if more light does not help.
std::vector<Wanting> find_wanting(const FilmRecord& film,
                                  const std::vector<size_t>& kept,
                                  const Balance& balance);

}  // namespace dapple
