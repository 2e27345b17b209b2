#include "scene/place_list.h"

#include <algorithm>
#include <cmath>

#include "base/other_words.h"
#include "base/units.h"
#include "scene/boards_and_figures/figure_places.h"
#include "scene/checks.h"
#include "scene/defaults.h"
#include "scene/room/place_on_wall.h"

namespace dapple {

namespace {

constexpr size_t kMostInMessage = 16;    // names that a message lists
constexpr float kBeforeSurface = 0.02F;  // m, a meter held to a wall or a board

Point point_of(const Field<Triple>& field) {
    return Point(field.value[0], field.value[1], field.value[2]);
}

// The centre of each surface's area; nothing if the room has no such surface.
std::vector<std::optional<Point>> surface_centres(const Scene& scene) {
    std::vector<Vec3> sums(scene.materials.size(), Vec3(0));
    std::vector<float> totals(scene.materials.size(), 0);
    for (const Mesh& mesh : scene.room) {
        for (size_t i = 0; i < mesh.triangles.size(); ++i) {
            if (mesh.materials[i] == kNoMaterial) continue;
            const auto material = static_cast<size_t>(mesh.materials[i]);
            const Point& a = mesh.positions[mesh.triangles[i].x];
            const Point& b = mesh.positions[mesh.triangles[i].y];
            const Point& c = mesh.positions[mesh.triangles[i].z];
            const float area = glm::length(glm::cross(b - a, c - a));
            sums[material] += area * (a + b + c) / 3.0F;
            totals[material] += area;
        }
    }
    std::vector<std::optional<Point>> centres(sums.size());
    for (size_t i = 0; i < sums.size(); ++i) {
        if (totals[i] > 0) centres[i] = sums[i] / totals[i];
    }
    return centres;
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

// A place of a figure, in shares of its height: how far before it a meter is held, and how far
// before it the skin is. Common practice: a meter is held a hand's length from the skin.
NamedPlace figure_place(const std::string& name,
                        const StandIn& figure,
                        std::optional<Point> at,
                        bool is_face) {
    NamedPlace place{name, at};
    place.before = figure.height * (is_face ? 0.15F : 0.24F);
    place.near_side = figure.height * (is_face ? 0.060F : 0.066F);
    place.front = Direction(std::sin(figure.turn), 0, std::cos(figure.turn));
    return place;
}

}  // namespace

PlaceList::PlaceList(const SetDescription& set, const Scene& scene, bool figures_are_turned) {
    const std::vector<std::optional<Point>> centres = surface_centres(scene);
    add_figures(set, figures_are_turned);
    add("camera", set.camera.position);
    for (const FixtureDescription& f : set.fixtures) add(f.name.value, f.position);
    for (const GlassObject& glass : scene.glasses) add(glass.name, glass_centre(glass, scene));
    for (const auto* boards : {&set.diffusers, &set.flags, &set.bounces}) {
        for (const BoardDescription& board : *boards) add_board(board, set);
    }
    for (const Column& c : scene.columns) add(c.name, c.position + Vec3(0, 0.5F * c.height, 0));
    for (const Board& door : scene.boards) add(door.name, door.centre).before = kBeforeSurface;
    for (const WindowDescription& window : set.windows) add_window(window, set, scene, centres);
    for (const MeterDescription& meter : set.meters) add_meter(meter);
    for (size_t i = 0; i < scene.materials.size(); ++i) {
        if (centres[i]) add(scene.materials[i].name, *centres[i]).before = kBeforeSurface;
    }
    for (const RegionDescription& region : set.regions) add_region(region);
    std::erase_if(places_, [](const NamedPlace& place) { return place.name.empty(); });
}

const NamedPlace* PlaceList::find(const std::string& name, bool past_waiting) const {
    if (const NamedPlace* place = find_exactly(name, past_waiting)) return place;
    const OtherWord* wall = find_other_word(
        name, {"floor", "ceiling", "wall_left", "wall_right", "wall_back", "wall_front"});
    return wall == nullptr ? nullptr : find_exactly(std::string(wall->ours), past_waiting);
}

std::string PlaceList::names_for(const std::string& wrong, const std::string& otherwise) const {
    std::vector<std::string> names;
    std::string list;
    for (const auto* places : {&places_, &other_names_}) {
        for (const NamedPlace& place : *places) {
            names.push_back(place.name);
            if (places == &places_ && names.size() <= kMostInMessage) {
                list += ", \"" + place.name + "\"";
            }
        }
    }
    if (places_.size() > kMostInMessage) list += ", …";
    const std::string nearest = nearest_word(wrong, names);
    return nearest.empty() ? "give " + otherwise + " or one of " + list.substr(2)
                           : "did you mean \"" + nearest + "\"?";
}

NamedPlace& PlaceList::add(const std::string& name, std::optional<Point> at) {
    NamedPlace place;
    place.name = name;
    place.at = at;
    return places_.emplace_back(std::move(place));
}

NamedPlace& PlaceList::add(const std::string& name, const Field<Triple>& position) {
    return add(name, position.given ? std::optional(point_of(position)) : std::nullopt);
}

// The only figure may be called "figure", whatever its name is.
void PlaceList::add_figures(const SetDescription& set, bool are_turned) {
    for (const StandInDescription& description : set.stand_ins) {
        const StandIn figure = placed_figure(description);
        std::optional<Point> chest;
        std::optional<Point> face;
        if (description.position.given) {
            chest = are_turned ? figure_chest(figure) : figure.position;
            face = are_turned ? figure_face(figure) : figure.position;
        }
        const auto chest_as = [&](const std::string& name) {
            return figure_place(name, figure, chest, false);
        };
        const auto face_as = [&](const std::string& name) {
            return figure_place(name, figure, face, true);
        };
        places_.push_back(chest_as(figure.name));
        places_.push_back(face_as(figure.name + " face"));
        for (const char* part : {" chest", " skin", " dress"}) {
            other_names_.push_back(chest_as(figure.name + part));
        }
        other_names_.push_back(face_as(figure.name + " hair"));
        if (set.stand_ins.size() > 1) continue;
        for (const char* name : {"figure", "figure chest", "chest"}) {
            other_names_.push_back(chest_as(name));
        }
        for (const char* name : {"figure face", "face"}) other_names_.push_back(face_as(name));
    }
}

void PlaceList::add_board(const BoardDescription& board, const SetDescription& set) {
    const std::string name = name_or_label(board.name, board);
    if (!board.clip_to.given) {
        add(name, board.position).before = kBeforeSurface;
        return;
    }
    for (const FixtureDescription& fixture : set.fixtures) {
        if (fixture.name.value == board.clip_to.value) add(name, fixture.position);
    }
}

void PlaceList::add_window(const WindowDescription& window,
                           const SetDescription& set,
                           const Scene& scene,
                           const std::vector<std::optional<Point>>& centres) {
    const std::string name = name_or_label(window.name, window);
    if (window.on_wall.wall.given) {
        Problems reported_later;
        const Rectangle at = place_on_wall(window.on_wall, set, 0, reported_later);
        add(name, reported_later.empty() ? std::optional(at.centre) : std::nullopt).before =
            kBeforeSurface;
        return;
    }
    for (size_t i = 0; i < scene.materials.size(); ++i) {
        if (scene.materials[i].name != window.surface.value) continue;
        add(name, centres[i]).before = kBeforeSurface;
    }
}

void PlaceList::add_meter(const MeterDescription& meter) {
    add(name_or_label(meter.name, meter), meter.position).waits =
        !meter.position.thing.empty() && !meter.position.given;
}

void PlaceList::add_region(const RegionDescription& region) {
    if (!region.surface.written) frame_regions_.insert(name_or_label(region.name, region));
    if (!region.surface.given) return;
    const NamedPlace* found = find(region.surface.value);
    if (found == nullptr) return;
    NamedPlace surface = *found;
    surface.name = name_or_label(region.name, region);
    places_.push_back(std::move(surface));
}

const NamedPlace* PlaceList::find_exactly(const std::string& name, bool past_waiting) const {
    for (const auto* list : {&places_, &other_names_}) {
        for (const NamedPlace& place : *list) {
            if (place.name == name && !(past_waiting && place.waits)) return &place;
        }
    }
    return nullptr;
}

}  // namespace dapple
