// What the frames of a drag keep of those before them, so that only what has changed is made again.
//
// What the pixels see: as long as the camera and the surfaces stay, only pixels that look at
// something that moves look again. And while one fixture is moved, turned or focused, the light of
// all others: it is rendered once for each size of frame, and then only the fixture's own light is.
// The shadow of the fixture's body in the others' light stays where it was, until the set rests.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "clean/coarse_light.h"
#include "desk/live_pace.h"
#include "desk/text_changes.h"
#include "load_set.h"
#include "render/render_options.h"

namespace dapple {

class LiveDrag {
  public:
    // The set has followed this text, with a world that changes.
    void follow(const std::string& text, const LoadedSet& set, bool is_moving);
    // Nothing that was kept fits any more.
    void drop();

    // For the next frame; empty if nothing fits.
    KeptSight sight() const { return {sight_, moved_}; }
    // What the pixels of a frame of the followed text saw.
    void keep_sight(FinePoints points);

    // The only fixture whose light changes in this drag.
    std::optional<size_t> fixture() const { return fixture_; }
    // The light of all other fixtures; nullptr if it is not there at this size.
    const KeptLight* others(const QuickSize& size) const;
    void keep_others(const QuickSize& size, KeptLight light);

  private:
    bool has_same_view(const Camera& camera) const;

    std::vector<OutlineTable> followed_;  // the newest text
    std::optional<Camera> camera_;        // with its place, of the newest text
    std::shared_ptr<const FinePoints> sight_;
    std::vector<Bounds> moved_;  // since `sight_`

    std::vector<OutlineTable> base_;  // before `fixture_` moved
    std::optional<size_t> fixture_;
    // By size: frames of a drag get finer and coarser as there is time for them.
    std::vector<std::pair<QuickSize, KeptLight>> others_;
};

}  // namespace dapple
