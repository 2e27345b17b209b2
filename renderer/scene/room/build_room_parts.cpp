// Builds the doors and columns of the room from [[door]] and [[column]]. Their surfaces have their
// names, so that [[surface]] can change them.
#include "scene/build_material.h"
#include "scene/checks.h"
#include "scene/defaults.h"
#include "scene/part_builders.h"
#include "scene/room/place_on_wall.h"

namespace dapple {

namespace {

constexpr float kDoorOffWall = 5e-4F;  // m; windows in a door are in front of it
constexpr double kMaxColumn = 100;     // m

Rgb wall_colour(const Scene& scene) {
    for (const Material& material : scene.materials) {
        if (material.name == "wall_left") return material.reflectance;
    }
    return Rgb(kBoxReflectance);
}

MaterialId add_paint(const TableDescription& table,
                     const Field<std::string>& name,
                     const Field<Triple>& reflectance,
                     const Rgb& fallback,
                     Scene& scene,
                     Problems& problems) {
    Material paint;
    paint.name = name_or_label(name, table);
    paint.reflectance = checked_colour(reflectance, fallback, kMaxReflectance, problems);
    for (const Material& other : scene.materials) {
        if (other.name != paint.name) continue;
        problems.add(name.written ? name.place : table.place,
                     name.key,
                     "\"" + paint.name + "\" is the name of another surface; names must differ");
        break;
    }
    return add_material(scene, std::move(paint));
}

void add_door(const DoorDescription& description,
              const SetDescription& set,
              Scene& scene,
              Problems& problems) {
    Board door;
    door.kind = BoardKind::kDoor;
    door.name = name_or_label(description.name, description);
    door.material = add_paint(description,
                              description.name,
                              description.reflectance,
                              Rgb(kDoorReflectance),
                              scene,
                              problems);
    if (check_written(description.on_wall.wall, "give the name of a wall", problems)) {
        const Rectangle at = place_on_wall(description.on_wall, set, kDoorOffWall, problems);
        door.centre = at.centre;
        door.facing = at.facing;
        door.size = at.size;
    }
    scene.boards.push_back(door);
}

void build_section(const ColumnDescription& description, Column& column, Problems& problems) {
    if (description.size_m.written == description.diameter_m.written) {
        problems.add(description.size_m.written ? description.diameter_m.place : description.place,
                     description.label,
                     "needs exactly one of size_m = [width, depth] and diameter_m");
        return;
    }
    column.round = description.diameter_m.written;
    if (column.round) {
        column.size = Vec2(
            static_cast<float>(checked_positive(description.diameter_m, 1, kMaxColumn, problems)));
    } else {
        column.size = checked_size(description.size_m, column.size, kMaxColumn, problems);
    }
}

// A missing height means up to the ceiling of a box room.
void build_height(const ColumnDescription& description,
                  const SetDescription& set,
                  Column& column,
                  Problems& problems) {
    const Field<double>& height = description.height_m;
    if (!height.written && set.room.size_m.given) {
        const double to_ceiling = set.room.size_m.value[2] - static_cast<double>(column.position.y);
        if (to_ceiling > 0) column.height = static_cast<float>(to_ceiling);
        return;
    }
    check_written(height, "only in a room of size_m may it be left out", problems);
    column.height = static_cast<float>(checked_positive(height, 1, kMaxColumn, problems));
}

void add_column(const ColumnDescription& description,
                const SetDescription& set,
                Scene& scene,
                Problems& problems) {
    Column column;
    column.name = name_or_label(description.name, description);
    column.material = add_paint(description,
                                description.name,
                                description.reflectance,
                                wall_colour(scene),
                                scene,
                                problems);
    column.position = checked_point(description.position, problems);
    build_section(description, column, problems);
    build_height(description, set, column, problems);
    scene.columns.push_back(column);
}

}  // namespace

void build_room_parts(const SetDescription& set, Scene& scene, Problems& problems) {
    for (const DoorDescription& door : set.doors) add_door(door, set, scene, problems);
    for (const ColumnDescription& column : set.columns) add_column(column, set, scene, problems);
}

}  // namespace dapple
