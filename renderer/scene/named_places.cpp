#include "scene/named_places.h"

#include <cmath>

#include "scene/checks.h"
#include "scene/place_list.h"

namespace dapple {

namespace {

constexpr float kLevel = 0.05F;  // level part of a direction; with less it is upright

Vec3 vec_of(const Field<Triple>& field) {
    return Vec3(field.value[0], field.value[1], field.value[2]);
}

void set_point(PointField& field, const Point& at) {
    field.value = {static_cast<double>(at.x), static_cast<double>(at.y), static_cast<double>(at.z)};
    field.given = true;
}

// The place of a name; nothing, with a problem, if it has none.
template <typename T>
const NamedPlace* place_of(const PlaceList& places,
                           const Field<T>& field,
                           const std::string& name,
                           const std::string& otherwise,
                           Problems& problems) {
    const NamedPlace* place = places.find(name);
    if (place == nullptr) {
        problems.add(
            field.place,
            field.key,
            "is \"" + name +
                (places.is_part_of_frame(name)
                     ? "\", a part of the frame alone; name a surface, a thing, or " +
                           std::string(otherwise.front() == '[' ? "a point " : "") + otherwise
                     : "\"; nothing in the set has this name; " +
                           places.names_for(name, otherwise)));
        return nullptr;
    }
    if (place->waits) {
        problems.add(
            field.place,
            field.key,
            "is \"" + name + "\", a meter whose own position is a name; give " + otherwise);
    }
    return place->at ? place : nullptr;  // a wrong position is reported already
}

// Replaces the name in `field` by its place.
void resolve(const PlaceList& places, PointField& field, Problems& problems) {
    if (field.thing.empty() || field.given) return;
    const NamedPlace* place = place_of(places, field, field.thing, "[x, y, z]", problems);
    if (place != nullptr) set_point(field, *place->at);
}

// A meter is held before the thing, on the side that it faces: level before a figure.
void resolve_meter(const PlaceList& places, MeterDescription& meter, Problems& problems) {
    resolve(places, meter.facing, problems);
    PointField& position = meter.position;
    if (position.thing.empty() || position.given) return;
    const NamedPlace* place = places.find(position.thing, true);
    if (place == nullptr) {
        place = place_of(places, position, position.thing, "[x, y, z]", problems);
    }
    if (place == nullptr || !place->at || !meter.facing.given) return;
    if (place->before <= 0) {
        problems.add(position.place,
                     position.key,
                     "is \"" + position.thing +
                         "\", and a meter cannot be inside it; name a figure (\"figure face\"), a "
                         "surface or a board, or give a point [x, y, z]");
        return;
    }
    Vec3 way = vec_of(meter.facing) - *place->at;
    if (place->front != Vec3(0)) {
        const Vec3 level(way.x, 0, way.z);
        way = glm::length(level) > kLevel * glm::length(way) ? level : place->front;
    }
    const float length = glm::length(way);
    set_point(position, length > 0 ? *place->at + place->before / length * way : *place->at);
}

// The distance to the near side of the thing, along the way that the camera looks.
void resolve_focus(const PlaceList& places, CameraDescription& camera, Problems& problems) {
    const Field<std::string>& thing = camera.focus_thing;
    if (!thing.given) return;
    const NamedPlace* place =
        place_of(places, thing, thing.value, "a distance such as 3.2", problems);
    if (place == nullptr || !camera.position.given || !camera.aim.given) return;
    const Vec3 axis = vec_of(camera.aim) - vec_of(camera.position);
    if (!(glm::length(axis) > 0)) return;  // reported later
    const Vec3 to = *place->at - vec_of(camera.position);
    const float distance = glm::dot(to, axis) / glm::length(axis) - place->near_side;
    if (!(distance > 0)) {
        problems.add(
            thing.place, thing.key, "is \"" + thing.value + "\", which is behind the camera");
        return;
    }
    camera.focus_m.value = static_cast<double>(distance);
    camera.focus_m.given = camera.focus_m.written = true;
    camera.focus_m.place = thing.place;
    camera.focus_m.key = thing.key;
}

}  // namespace

void resolve_named_points(SetDescription& set, const Scene& scene, Problems& problems) {
    {
        // Which way a figure faces depends on where the others stand, not on how they are turned.
        const PlaceList places(set, scene, false);
        for (StandInDescription& f : set.stand_ins) resolve(places, f.facing, problems);
    }
    {
        const PlaceList places(set, scene, true);
        for (MeterDescription& meter : set.meters) resolve_meter(places, meter, problems);
    }
    const PlaceList places(set, scene, true);
    resolve(places, set.camera.aim, problems);
    for (FixtureDescription& fixture : set.fixtures) resolve(places, fixture.aim, problems);
    for (auto* boards : {&set.diffusers, &set.flags, &set.bounces}) {
        for (BoardDescription& board : *boards) resolve(places, board.aim, problems);
    }
    resolve_focus(places, set.camera, problems);
}

}  // namespace dapple
