// Builds a Board from [[diffuser]], [[flag]] and [[bounce]].
#include <algorithm>
#include <array>
#include <cmath>

#include "base/units.h"
#include "scene/boards_and_figures/cloths.h"
#include "scene/build_material.h"
#include "scene/checks.h"
#include "scene/defaults.h"
#include "scene/part_builders.h"

namespace dapple {

namespace {

constexpr double kMaxBoard = 100;  // m
constexpr auto kWidestClip = static_cast<float>(radians_from_degrees(140));

void build_board_size(const BoardDescription& description, Board& board, Problems& problems) {
    if (description.size_m.written == description.diameter_m.written) {
        problems.add(description.size_m.written ? description.diameter_m.place : description.place,
                     description.label,
                     "needs exactly one of size_m = [width, height] and diameter_m");
        return;
    }
    board.round = description.diameter_m.written;
    if (board.round) {
        const auto diameter =
            static_cast<float>(checked_positive(description.diameter_m, 1, kMaxBoard, problems));
        board.size = Vec2(diameter, diameter);
    } else {
        board.size = checked_size(description.size_m, board.size, kMaxBoard, problems);
    }
}

// The figures of the named cloth, except those that the set gives.
SheetDescription sheet_of(const BoardDescription& description, Problems& problems) {
    SheetDescription sheet = description.sheet;
    std::vector<std::pair<std::string, const Cloth*>> cloths;
    for (const Cloth& cloth : kCloths) cloths.emplace_back(cloth.name, &cloth);
    const Cloth* cloth = checked_word<const Cloth*>(description.cloth, cloths, nullptr, problems);
    if (cloth == nullptr) return sheet;
    const auto fill_in = [&](Field<double>& field, double value) {
        if (field.written) return;
        field.value = value;
        field.given = true;
    };
    fill_in(sheet.transmission, std::exp2(-cloth->stops));
    fill_in(sheet.spread_deg, cloth->spread_deg);
    fill_in(sheet.direct, std::min(cloth->direct, sheet.transmission.value));
    return sheet;
}

Material build_diffuser(const BoardDescription& description, Problems& problems) {
    Material material;
    build_sheet(
        sheet_of(description, problems),
        description.reflectance,
        kDiffuserTransmission,
        [](double transmission) {
            return Rgb(static_cast<float>(kDiffuserReflected * (1 - transmission)));
        },
        material,
        problems);
    return material;
}

// Black cloth; with a stencil, it is solid where the picture is bright.
Material build_flag(const BoardDescription& description,
                    TextureShelf& textures,
                    Problems& problems) {
    Material material;
    material.reflectance = Rgb(kFlagReflectance);
    const Field<std::string>& stencil = description.stencil;
    if (stencil.given) {
        std::string trouble;
        material.opacity_texture =
            textures.index({{path_named_by(stencil), nullptr, false}, false, -1}, trouble);
        if (!trouble.empty()) problems.add(stencil.place, stencil.key, trouble);
    }
    return material;
}

struct Finish {
    Rgb reflectance;
    bool metal;
};

// Typical boards, our own figures: paint, crumpled silver foil, and warm foil called gold.
const std::vector<std::pair<std::string, Finish>> kFinishes{
    {"white", {Rgb(kBounceReflectance), false}},
    {"silver", {Rgb(0.86F), true}},
    {"gold", {Rgb(0.86F, 0.60F, 0.24F), true}}};

Material build_bounce(const BoardDescription& description, Problems& problems) {
    const Finish finish =
        checked_word(description.finish, kFinishes, kFinishes.front().second, problems);
    Material material;
    material.reflectance =
        checked_colour(description.reflectance, finish.reflectance, kMaxReflectance, problems);
    if (finish.metal || description.roughness.written) {
        const float fallback = finish.metal ? kMetalFoil : static_cast<float>(kMetalRoughness);
        material.kind = MaterialKind::kConductor;
        material.roughness =
            static_cast<float>(checked_range(description.roughness, fallback, 0, 1, problems));
    }
    return material;
}

// The fixture that a diffuser is clipped to. Returns nullptr, with a problem, if there is none.
const Fixture* find_fixture(const Field<std::string>& name,
                            const Scene& scene,
                            Problems& problems) {
    std::vector<std::string> names;
    for (const Fixture& fixture : scene.fixtures) {
        if (fixture.name == name.value) return &fixture;
        names.push_back(fixture.name);
    }
    const std::string nearest = nearest_word(name.value, names);
    problems.add(name.place,
                 name.key,
                 "there is no fixture \"" + name.value + "\"" +
                     (nearest.empty() ? "" : "; did you mean \"" + nearest + "\"?"));
    return nullptr;
}

// Wide enough for the housing and for the beam at that distance, down to a tenth of its intensity.
Vec2 clip_size(const Fixture& fixture, float distance) {
    if (fixture.form == FixtureForm::kPanel) {
        return kClipMargin * (fixture.panel_size + Vec2(2 * distance));
    }
    const float half_field = 0.5F * std::min(fixture.field_angle, kWidestClip);
    const float beam = fixture.source_diameter + 2 * distance * std::tan(half_field);
    return Vec2(std::max(kClipMargin * beam, fixture.housing_diameter));
}

// Places the board in front of the fixture's lens, at a right angle to its axis.
void clip_board(const BoardDescription& description,
                const Scene& scene,
                Board& board,
                Problems& problems) {
    const std::array<const Field<Triple>*, 2> placed{&description.position, &description.aim};
    for (const Field<Triple>* field : placed) {
        if (field->written) {
            problems.add(
                field->place, field->key, "is given beside clip_to; give only one of them");
        }
    }
    const double mm = checked_range(description.clip_mm, kClipMm, 1, 1000, problems);
    const Fixture* fixture = find_fixture(description.clip_to, scene, problems);
    if (fixture == nullptr) return;
    if (fixture->form == FixtureForm::kBare) {
        problems.add(
            description.clip_to.place,
            description.clip_to.key,
            "\"" + fixture->name + "\" is a bare lamp; only spots and panels have a front");
        return;
    }
    const auto distance = static_cast<float>(metres_from_mm(mm));
    board.centre = fixture->position + distance * fixture->axis;
    board.facing = fixture->axis;
    board.clipped_to = fixture->name;
    if (description.size_m.written || description.diameter_m.written) {
        build_board_size(description, board, problems);
        return;
    }
    board.size = clip_size(*fixture, distance);
    board.round = fixture->form == FixtureForm::kSpot;
}

void place_board(const BoardDescription& description,
                 const Scene& scene,
                 Board& board,
                 Problems& problems) {
    if (description.clip_to.given) return clip_board(description, scene, board, problems);
    if (description.clip_mm.written) {
        problems.add(description.clip_mm.place,
                     description.clip_mm.key,
                     "is only for what is clipped with clip_to");
    }
    board.centre = checked_point(description.position, problems);
    board.facing = checked_aim(description.aim, description.position, "its face looks", problems);
    const Triple& aim = description.aim.value;
    board.aim = Point(aim[0], aim[1], aim[2]);
    build_board_size(description, board, problems);
}

void add_board(const BoardDescription& description,
               BoardKind kind,
               Material material,
               Scene& scene,
               Problems& problems) {
    Board board;
    board.name = name_or_label(description.name, description);
    board.kind = kind;
    board.kit = description.kit;
    board.cloth = description.cloth.value;
    place_board(description, scene, board, problems);
    material.name = board.name;
    board.material = add_material(scene, std::move(material));
    scene.boards.push_back(board);
}

}  // namespace

void build_boards(const SetDescription& set,
                  const ImageReader& read_image,
                  Scene& scene,
                  Problems& problems) {
    TextureShelf textures(read_image, scene);
    for (const BoardDescription& board : set.diffusers) {
        add_board(board, BoardKind::kDiffuser, build_diffuser(board, problems), scene, problems);
    }
    for (const BoardDescription& board : set.flags) {
        Material cloth = build_flag(board, textures, problems);
        add_board(board, BoardKind::kFlag, std::move(cloth), scene, problems);
    }
    for (const BoardDescription& board : set.bounces) {
        add_board(board, BoardKind::kBounce, build_bounce(board, problems), scene, problems);
    }
}

}  // namespace dapple
