#include "desk/live_drag.h"

#include <utility>

namespace dapple {

void LiveDrag::drop() {
    *this = LiveDrag();
}

// The camera can change without its table, when it looks at a thing that moves.
bool LiveDrag::has_same_view(const Camera& now) const {
    return camera_ && camera_->position == now.position && camera_->frame.s == now.frame.s &&
           camera_->frame.n == now.frame.n && camera_->focus_distance == now.focus_distance;
}

void LiveDrag::follow(const std::string& text, const LoadedSet& set, bool is_moving) {
    std::vector<OutlineTable> now = outline_of(text);
    const Camera& camera = set.scene.camera;
    const bool same_view = has_same_view(camera);
    if (!same_view || !changes_between(followed_, now).only_places) sight_.reset();
    const std::vector<Bounds>& changed = set.world.changed_bounds();
    moved_.insert(moved_.end(), changed.begin(), changed.end());
    camera_ = camera;

    TextChanges since = changes_between(base_, now);
    if (since.fixture >= set.scene.fixtures.size()) since.fixture.reset();
    // Ghosts and stars of a lens are made from all lamps at once.
    const bool may_split = is_moving && same_view && !camera.lens.is_there();
    const bool goes_on = since.fixture && (!fixture_ || fixture_ == since.fixture);
    if (may_split && (goes_on || !since.are_there)) {
        if (since.fixture) fixture_ = since.fixture;
    } else {
        base_ = now;
        fixture_.reset();
        others_.clear();
    }
    followed_ = std::move(now);
}

void LiveDrag::keep_sight(FinePoints points) {
    sight_ = std::make_shared<const FinePoints>(std::move(points));
    moved_.clear();
}

const KeptLight* LiveDrag::others(const QuickSize& size) const {
    for (const auto& [kept_size, light] : others_) {
        if (kept_size == size) return &light;
    }
    return nullptr;
}

void LiveDrag::keep_others(const QuickSize& size, KeptLight light) {
    others_.emplace_back(size, std::move(light));
}

}  // namespace dapple
