#include "variants/night_shares.h"

#include <algorithm>

namespace dapple {

std::vector<ShareUnit> units_of_share(const std::vector<size_t>& films,
                                      int64_t passes,
                                      const Share& share) {
    const int64_t all = static_cast<int64_t>(films.size()) * passes;
    const int64_t first = all * (share.number - 1) / share.of;
    const int64_t end = all * share.number / share.of;
    std::vector<ShareUnit> units;
    for (int64_t at = first; at < end;) {
        const int64_t film = at / passes;
        const int64_t next = std::min(end, (film + 1) * passes);
        units.push_back({films[static_cast<size_t>(film)], at - film * passes, next - at});
        at = next;
    }
    return units;
}

}  // namespace dapple
