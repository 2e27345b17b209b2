#include "render/prepare/pilots.h"

#include <numeric>

namespace dapple {

std::shared_ptr<const Pilots> carried_over(const Pilots& earlier,
                                           const KeptLamps& lamps,
                                           const std::vector<int>& light_walks) {
    auto pilots = std::make_shared<Pilots>(earlier);
    pilots->lamps = lamps;
    pilots->light_walks = light_walks;
    const std::vector<bool> is_same = same_lamps(lamps.probes, earlier.lamps.probes);
    for (size_t f = 0; pilots->asked && f < is_same.size(); ++f) {
        if (!is_same[f]) pilots->asked->ask_always(f);
    }
    const auto sum = [](const std::vector<int>& walks) {
        return std::accumulate(walks.begin(), walks.end(), 0.0);
    };
    const double now = sum(light_walks);
    if (pilots->connections && now > 0) {
        pilots->connections->scale_flux(sum(earlier.light_walks) / now);
    }
    return pilots;
}

}  // namespace dapple
