#include "splat_log.h"

#include <algorithm>

namespace dapple {

void SplatLog::add_splat(std::span<const SplatPart> parts,
                         const Footprint& footprint,
                         const SurfacePoint& at,
                         int fixture) {
    const uint64_t sequence = met_++ / kSequence;
    if (sequence % every_ != 0) return;
    if (kept_.size() == kMost) drop_every_second_sequence();
    Splat& splat = kept_.emplace_back();
    std::copy(parts.begin(), parts.end(), splat.parts.begin());
    splat.count = parts.size();
    splat.footprint = footprint;
    splat.at = at;
    splat.fixture = fixture;
}

void SplatLog::drop_every_second_sequence() {
    for (size_t to = kSequence; 2 * to < kept_.size(); to += kSequence) {
        std::copy_n(kept_.begin() + static_cast<std::ptrdiff_t>(2 * to),
                    kSequence,
                    kept_.begin() + static_cast<std::ptrdiff_t>(to));
    }
    kept_.resize(kMost / 2);
    every_ *= 2;
}

}  // namespace dapple
