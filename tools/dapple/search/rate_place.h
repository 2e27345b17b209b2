// Looks at one place in a moment: a small frame of few passes, and what it measures.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "develop/develop.h"
#include "judge/measure.h"
#include "load_set.h"
#include "search/search_question.h"

namespace dapple {

struct PlaceRating {
    std::string unusable;           // why the place cannot be used; empty: it can
    std::vector<Measure> measures;  // by wish
    Measure score;                  // the less the better
    std::vector<float> look;        // E171
    std::optional<Picture> picture;
};

class PlaceRater {
  public:
    // Looks at the set as it is. Throws FileError if a wish names what the set does not measure.
    PlaceRater(const SearchQuestion& question, Problems& problems);

    // `goes_on`: asked a few times per second; false: throws StoppedWork. `wants_picture`: asked
    // with a rating that has no picture yet.
    PlaceRating rate(const std::vector<SetChange>& changes,
                     const std::function<bool()>& goes_on,
                     const std::function<bool(const PlaceRating&)>& wants_picture) const;

  private:
    std::string unusable(const LoadedSet& set) const;

    const SearchQuestion& question_;
    std::string kind_, name_;      // of the thing
    bool looks_for_cuts_ = false;  // not if the thing is in another one in the set as it is
};

}  // namespace dapple
