#include "night/rebalance_variants.h"

#include "base/parallel.h"
#include "night/variant_results.h"
#include "output/read_exr.h"
#include "output/safe_file.h"
#include "rebalance/rebalance.h"
#include "rebalance/settings.h"
#include "variants/light_only.h"

namespace dapple {

namespace {

void rebalance_variant(const NightPlan& plan,
                       const std::string& folder,
                       size_t index,
                       FilmRecord film,
                       NightVariantState& state) {
    Problems problems;
    Settings settings;
    settings.set = light_settings(plan.variants[index].variant);
    const std::vector<Fixture> wanted = apply_settings(film, settings, problems);
    if (!problems.empty()) {
        state.failure = to_string(problems.all().front());
        return;
    }
    const std::vector<LayerChange> changes = make_layer_changes(film, wanted);
    write_variant_set(plan, folder, index);
    // Packing takes three times as long as all else.
    write_variant_film(variant_files(plan, folder, index),
                       rebalance(std::move(film), wanted, changes),
                       ExrPacking::kNone,
                       state);
}

}  // namespace

void rebalance_variants(const NightPlan& plan,
                        const std::string& folder,
                        std::vector<NightVariantState>& states) {
    for (size_t film = 0; film < states.size(); ++film) {
        std::vector<size_t> made;
        for (size_t i = 0; i < states.size(); ++i) {
            if (i == film || plan.variants[i].film != film) continue;
            if (states[i].state.passes < states[film].state.passes) made.push_back(i);
        }
        if (made.empty()) continue;
        const FilmRecord record = read_exr(variant_files(plan, folder, film).exr);
        parallel_blocks(static_cast<int64_t>(made.size()), 1, [&](int64_t first, int64_t) {
            const size_t i = made[static_cast<size_t>(first)];
            try {
                rebalance_variant(plan, folder, i, record, states[i]);
            } catch (const DiskError&) {
                throw;
            } catch (const std::exception& error) {
                states[i].failure = error.what();
            }
        });
    }
}

}  // namespace dapple
