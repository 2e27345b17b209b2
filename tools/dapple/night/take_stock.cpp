#include "night/take_stock.h"

#include <filesystem>

#include "night/variant_results.h"

namespace dapple {

namespace {

bool has_results(const RenderFiles& files) {
    for (const std::string* path : {&files.png, &files.exr, &files.stats}) {
        if (!std::filesystem::exists(*path)) return false;
    }
    return true;
}

}  // namespace

void take_stock(const NightPlan& plan, const std::string& folder, std::vector<NightState>& states) {
    for (size_t i = 0; i < states.size(); ++i) {
        const RenderFiles files = variant_files(plan, folder, i);
        bool is_there = states[i].passes > 0 && has_results(files);
        if (plan.variants[i].film == i) {
            const auto kept = read_kept_passes(files.passes, plan.variants[i].fingerprint);
            is_there = is_there && kept && kept->frame.passes.count() >= states[i].passes;
        }
        if (!is_there) states[i] = {};
    }
}

}  // namespace dapple
