// Something about a set that can be rendered as it is, but that can hardly be meant: what an
// assistant in the room would notice.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "base/problems.h"

namespace dapple {

struct Doubt {
    Problem what;           // the key, what is wrong with figures, and what to try
    bool is_guess = false;  // told by the look of it; otherwise it follows from the geometry
};

using Doubts = std::vector<Doubt>;

inline Doubt make_doubt(const Place& place,
                        const std::string& key,
                        std::string message,
                        bool is_guess = false) {
    Doubt doubt;
    doubt.what.place = place;
    doubt.what.key = key;
    doubt.what.message = std::move(message);
    doubt.is_guess = is_guess;
    return doubt;
}

}  // namespace dapple
