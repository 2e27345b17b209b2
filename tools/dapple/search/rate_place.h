// Looks at one place in a moment: a small frame of few passes, and what it measures. A place that
// looks good gets a few more, so that good places are told apart better than bad ones.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "develop/develop.h"
#include "judge/measure.h"
#include "load_set.h"
#include "render/render_frame.h"
#include "search/search_question.h"

namespace dapple {

struct PlaceRating {
    std::string unusable;           // why the place cannot be used; empty: it can
    std::vector<Measure> measures;  // by wish
    Measure score;                  // the less the better
    std::vector<float> look;        // E187
    std::optional<Picture> picture;
};

// What a look is told and asks.
struct LookListeners {
    std::function<bool()> goes_on;  // asked a few times per second; false: StoppedWork is thrown
    // Asked with a rating of the first passes; not given: no.
    std::function<bool(const PlaceRating&)> looks_good;
    // Asked with a rating that has no picture yet; not given: no.
    std::function<bool(const PlaceRating&)> wants_picture;
};

class PlaceRater {
  public:
    // Looks at the set as it is. Throws FileError if a wish names what the set does not measure.
    PlaceRater(const SearchQuestion& question, Problems& problems);

    PlaceRating rate(const std::vector<SetChange>& changes, const LookListeners& listeners) const;

  private:
    PlaceRating measure(const LoadedSet& set, const RenderResult& result) const;
    std::string unusable(const LoadedSet& set) const;

    const SearchQuestion& question_;
    std::string kind_, name_;      // of the thing
    bool looks_for_cuts_ = false;  // not if the thing is in another one in the set as it is
};

}  // namespace dapple
