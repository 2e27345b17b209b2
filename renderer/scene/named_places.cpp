#include "scene/named_places.h"

#include <cmath>
#include <set>

#include "base/other_words.h"
#include "base/units.h"
#include "scene/boards_and_figures/figure_places.h"
#include "scene/checks.h"
#include "scene/defaults.h"
#include "scene/room/place_on_wall.h"

namespace dapple {

namespace {

constexpr size_t kMostInMessage = 16;  // names that a message lists

Point point_of(const Field<Triple>& field) {
    return Point(field.value[0], field.value[1], field.value[2]);
}

// The centre of a surface's area; nothing if the room has no such surface.
std::optional<Point> surface_centre(const Scene& scene, MaterialId material) {
    Vec3 sum(0);
    float total = 0;
    for (const Mesh& mesh : scene.room) {
        for (size_t i = 0; i < mesh.triangles.size(); ++i) {
            if (mesh.materials[i] != material) continue;
            const Point& a = mesh.positions[mesh.triangles[i].x];
            const Point& b = mesh.positions[mesh.triangles[i].y];
            const Point& c = mesh.positions[mesh.triangles[i].z];
            const float area = glm::length(glm::cross(b - a, c - a));
            sum += area * (a + b + c) / 3.0F;
            total += area;
        }
    }
    if (!(total > 0)) return std::nullopt;
    return sum / total;
}

// Half the height of made glass, the middle of a model.
Point glass_centre(const GlassObject& glass, const Scene& scene) {
    Vec3 middle(0, 0.5F * glass.height, 0);
    if (glass.mesh >= 0) {
        Bounds bounds;
        for (const Point& p : scene.glass_meshes[static_cast<size_t>(glass.mesh)].positions) {
            bounds.add(p);
        }
        middle = bounds.centre();
    }
    const float ct = std::cos(glass.tilt);
    const float st = std::sin(glass.tilt);
    middle = Vec3(middle.x, ct * middle.y - st * middle.z, st * middle.y + ct * middle.z);
    const float c = std::cos(glass.turn);
    const float s = std::sin(glass.turn);
    return glass.position +
           Vec3(c * middle.x + s * middle.z, middle.y, c * middle.z - s * middle.x);
}

// The figure as far as its place depends on it. Wrong values are reported elsewhere.
StandIn placed_figure(const StandInDescription& description) {
    StandIn figure;
    figure.name = name_or_label(description.name, description);
    figure.position = point_of(description.position);
    if (description.pose.value == "seated") figure.pose = Pose::kSeated;
    figure.height =
        static_cast<float>(description.height_m.given ? description.height_m.value : kFigureHeight);
    figure.turn = static_cast<float>(radians_from_degrees(description.turn_deg.value));
    if (description.facing.given) {
        const Vec3 way = point_of(description.facing) - figure.position;
        figure.turn = std::atan2(way.x, way.z);
    }
    return figure;
}

class NamedPlaces {
  public:
    NamedPlaces(const SetDescription& set, const Scene& scene, bool figures_are_turned) {
        add_figures(set, figures_are_turned);
        add("camera", set.camera.position);
        for (const FixtureDescription& f : set.fixtures) add(f.name.value, f.position);
        for (const GlassObject& glass : scene.glasses) add(glass.name, glass_centre(glass, scene));
        for (const auto* boards : {&set.diffusers, &set.flags, &set.bounces}) {
            for (const BoardDescription& board : *boards) add_board(board, set);
        }
        for (const Column& c : scene.columns) {
            add(c.name, c.position + Vec3(0, 0.5F * c.height, 0));
        }
        for (const Board& door : scene.boards) add(door.name, door.centre);
        for (const WindowDescription& window : set.windows) add_window(window, set, scene);
        for (const MeterDescription& m : set.meters) {
            add(name_or_label(m.name, m), m.position);
        }
        for (size_t i = 0; i < scene.materials.size(); ++i) {
            const auto centre = surface_centre(scene, static_cast<MaterialId>(i));
            if (centre) add(scene.materials[i].name, *centre);
        }
        for (const RegionDescription& region : set.regions) add_region(region);
    }

    // Replaces the name in `field` by its place.
    void resolve(PointField& field, Problems& problems) const {
        if (field.thing.empty()) return;
        const NamedPlace* place = find(field.thing);
        if (place == nullptr && frame_regions_.count(field.thing) > 0) {
            problems.add(field.place,
                         field.key,
                         "is \"" + field.thing +
                             "\", a part of the frame alone; name a surface, a thing, or a point "
                             "[x, y, z]");
            return;
        }
        if (place == nullptr) return report(field, problems);
        if (!place->at) return;  // its position is wrong, which is reported already
        field.value = {static_cast<double>(place->at->x),
                       static_cast<double>(place->at->y),
                       static_cast<double>(place->at->z)};
        field.given = true;
    }

  private:
    struct NamedPlace {
        std::string name;
        std::optional<Point> at;  // none: the thing has no place, because its table is wrong
    };

    void add(const std::string& name, std::optional<Point> at) {
        if (!name.empty()) places_.push_back({name, at});
    }
    void add(const std::string& name, const Field<Triple>& position) {
        add(name, position.given ? std::optional(point_of(position)) : std::nullopt);
    }

    // The only figure may be called "figure", whatever its name is.
    void add_figures(const SetDescription& set, bool are_turned) {
        for (const StandInDescription& description : set.stand_ins) {
            const StandIn figure = placed_figure(description);
            std::optional<Point> chest;
            std::optional<Point> face;
            if (description.position.given) {
                chest = are_turned ? figure_chest(figure) : figure.position;
                face = are_turned ? figure_face(figure) : figure.position;
            }
            add(figure.name, chest);
            add(figure.name + " face", face);
            for (const char* part : {" chest", " skin", " dress"}) {
                other_names_.push_back({figure.name + part, chest});
            }
            other_names_.push_back({figure.name + " hair", face});
            if (set.stand_ins.size() > 1) continue;
            for (const char* name : {"figure", "chest"}) other_names_.push_back({name, chest});
            for (const char* name : {"figure face", "face"}) other_names_.push_back({name, face});
        }
    }

    void add_board(const BoardDescription& board, const SetDescription& set) {
        const std::string name = name_or_label(board.name, board);
        if (!board.clip_to.given) return add(name, board.position);
        for (const FixtureDescription& fixture : set.fixtures) {
            if (fixture.name.value == board.clip_to.value) add(name, fixture.position);
        }
    }

    void add_window(const WindowDescription& window,
                    const SetDescription& set,
                    const Scene& scene) {
        const std::string name = name_or_label(window.name, window);
        if (window.on_wall.wall.given) {
            Problems reported_later;
            const Rectangle at = place_on_wall(window.on_wall, set, 0, reported_later);
            return add(name, reported_later.empty() ? std::optional(at.centre) : std::nullopt);
        }
        for (size_t i = 0; i < scene.materials.size(); ++i) {
            if (scene.materials[i].name != window.surface.value) continue;
            add(name, surface_centre(scene, static_cast<MaterialId>(i)));
        }
    }

    void add_region(const RegionDescription& region) {
        if (!region.surface.written) frame_regions_.insert(name_or_label(region.name, region));
        if (!region.surface.given) return;
        const NamedPlace* surface = find(region.surface.value);
        if (surface != nullptr) add(name_or_label(region.name, region), surface->at);
    }

    const NamedPlace* find_exactly(const std::string& name) const {
        for (const auto* list : {&places_, &other_names_}) {
            for (const NamedPlace& place : *list) {
                if (place.name == name) return &place;
            }
        }
        return nullptr;
    }

    // Also "back wall" for wall_back and the like.
    const NamedPlace* find(const std::string& name) const {
        if (const NamedPlace* place = find_exactly(name)) return place;
        const OtherWord* wall = find_other_word(
            name, {"floor", "ceiling", "wall_left", "wall_right", "wall_back", "wall_front"});
        return wall == nullptr ? nullptr : find_exactly(std::string(wall->ours));
    }

    void report(const PointField& field, Problems& problems) const {
        std::vector<std::string> names;
        std::string list;
        for (const auto* places : {&places_, &other_names_}) {
            for (const NamedPlace& place : *places) {
                names.push_back(place.name);
                if (places == &places_ && names.size() <= kMostInMessage)
                    list += ", \"" + place.name + "\"";
            }
        }
        if (places_.size() > kMostInMessage) list += ", …";
        const std::string nearest = nearest_word(field.thing, names);
        problems.add(field.place,
                     field.key,
                     "is \"" + field.thing + "\"; nothing in the set has this name; " +
                         (nearest.empty() ? "give [x, y, z] or one of " + list.substr(2)
                                          : "did you mean \"" + nearest + "\"?"));
    }

    std::vector<NamedPlace> places_;
    std::vector<NamedPlace> other_names_;  // of figures; messages do not list them
    std::set<std::string> frame_regions_;  // of no surface, so without a place in the room
};

}  // namespace

void resolve_named_points(SetDescription& set, const Scene& scene, Problems& problems) {
    {
        // Which way a figure faces depends on where the others stand, not on how they are turned.
        const NamedPlaces places(set, scene, false);
        for (StandInDescription& figure : set.stand_ins) places.resolve(figure.facing, problems);
    }
    const NamedPlaces places(set, scene, true);
    places.resolve(set.camera.aim, problems);
    for (FixtureDescription& fixture : set.fixtures) places.resolve(fixture.aim, problems);
    for (auto* boards : {&set.diffusers, &set.flags, &set.bounces}) {
        for (BoardDescription& board : *boards) places.resolve(board.aim, problems);
    }
    for (MeterDescription& meter : set.meters) places.resolve(meter.facing, problems);
}

}  // namespace dapple
