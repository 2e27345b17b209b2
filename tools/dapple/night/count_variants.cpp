#include "night/count_variants.h"

namespace dapple {

void count_variants(const NightPlan& plan,
                    const std::vector<NightVariantState>& states,
                    const NightLimits& limits,
                    NightProgress& progress) {
    progress.done = progress.begun = progress.waiting = progress.failed = 0;
    for (size_t i = 0; i < states.size(); ++i) {
        const NightVariantState& s = states[i];
        const NightState& film = states[plan.variants[i].film].state;
        const bool is_done = s.state.passes == film.passes && is_finished(film, limits);
        ++(!s.failure.empty()    ? progress.failed
           : s.state.passes == 0 ? progress.waiting
           : is_done             ? progress.done
                                 : progress.begun);
    }
}

}  // namespace dapple
