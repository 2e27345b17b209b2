// The places of all things of a set that have a name, as far as they are known.
#pragma once

#include <optional>
#include <set>
#include <string>
#include <vector>

#include "scene/scene.h"
#include "set/set_description.h"

namespace dapple {

struct NamedPlace {
    std::string name;
    std::optional<Point> at;  // none: the thing has no place, because its table is wrong
    float before = 0;         // m, how far before the place a meter is held; 0: nowhere
    float near_side = 0;      // m, from the place to the side of it on which a lens focuses
    Direction front{0};       // of a figure: level, the way that it faces; else 0
    bool waits = false;       // a meter whose own place is a name
};

class PlaceList {
  public:
    // Which way a figure faces may depend on where the others are: then they are not turned yet,
    // and their chests and faces are where their feet are.
    PlaceList(const SetDescription& set, const Scene& scene, bool figures_are_turned);

    // Also "back wall" for wall_back and the like. nullptr: nothing has the name. A meter that
    // waits may be passed over.
    const NamedPlace* find(const std::string& name, bool past_waiting = false) const;
    // Whether it is the name of a region of pixels, which has no place in the room.
    bool is_part_of_frame(const std::string& name) const { return frame_regions_.count(name) > 0; }

    // How to mend a name that nothing has: `did you mean "jar"?`, or `give OTHERWISE or one of
    // "jar", "wall_back", …`
    std::string names_for(const std::string& wrong, const std::string& otherwise) const;

  private:
    NamedPlace& add(const std::string& name, std::optional<Point> at);
    NamedPlace& add(const std::string& name, const Field<Triple>& position);
    void add_figures(const SetDescription& set, bool are_turned);
    void add_board(const BoardDescription& board, const SetDescription& set);
    // `centres`: of the room's surfaces, by material.
    void add_window(const WindowDescription& window,
                    const SetDescription& set,
                    const Scene& scene,
                    const std::vector<std::optional<Point>>& centres);
    void add_meter(const MeterDescription& meter);
    void add_region(const RegionDescription& region);
    const NamedPlace* find_exactly(const std::string& name, bool past_waiting) const;

    std::vector<NamedPlace> places_;
    std::vector<NamedPlace> other_names_;  // of figures; messages do not list them
    std::set<std::string> frame_regions_;
};

}  // namespace dapple
