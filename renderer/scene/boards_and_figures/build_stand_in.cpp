// Builds a StandIn from [[stand_in]]: its pose, and the materials of skin, hair and dress.
//
// Its surfaces are named "NAME skin", "NAME hair" and "NAME dress", so that a region can use them.
#include <cmath>

#include "base/units.h"
#include "scene/build_material.h"
#include "scene/checks.h"
#include "scene/defaults.h"
#include "scene/part_builders.h"

namespace dapple {

namespace {

const std::vector<std::pair<std::string, Pose>> kPoses{
    {"standing", Pose::kStanding}, {"seated", Pose::kSeated}, {"arm_raised", Pose::kArmRaised}};

const std::vector<std::pair<std::string, MeasuredReflectance>> kSkins{
    {"light", MeasuredReflectance::kLightSkin},
    {"medium", MeasuredReflectance::kMediumSkin},
    {"dark", MeasuredReflectance::kDarkSkin}};

const std::vector<std::pair<std::string, MeasuredReflectance>> kHairs{
    {"dark", MeasuredReflectance::kDarkHair},
    {"fair", MeasuredReflectance::kFairHair},
    {"none", MeasuredReflectance::kNone}};

MaterialId add_named(const std::string& name, Material material, Scene& scene) {
    material.name = name;
    return add_material(scene, std::move(material));
}

Material build_skin(const StandInDescription& description, Problems& problems) {
    Material skin;
    if (description.skin.given) {
        skin.reflectance =
            checked_colour(description.skin, skin.reflectance, kMaxReflectance, problems);
    } else {
        skin.measured =
            checked_word(description.skin_word, kSkins, MeasuredReflectance::kMediumSkin, problems);
    }
    skin.coat = static_cast<float>(checked_range(description.gloss, 0, 0, 1, problems));
    if (skin.coat > 0) {
        skin.kind = MaterialKind::kCoated;
        skin.roughness = static_cast<float>(kGlossRoughness);
    }
    return skin;
}

Material build_dress(const DressDescription& description, Problems& problems) {
    Material dress;
    build_sheet(
        description.sheet,
        description.reflectance,
        kDressTransmission,
        [](double transmission) {
            return Rgb(static_cast<float>(kDiffuserReflected * (1 - transmission)));
        },
        dress,
        problems);
    return dress;
}

float build_turn(const StandInDescription& description, const Point& at, Problems& problems) {
    const PointField& facing = description.facing;
    if (facing.written && description.turn_deg.written) {
        problems.add(facing.place, facing.key, "is given beside turn_deg; give only one of them");
    }
    if (!facing.given) return checked_radians(description.turn_deg, 0, -3600, 3600, problems);
    const Vec3 way = checked_point(facing, problems) - at;
    return way.x == 0 && way.z == 0 ? 0 : std::atan2(way.x, way.z);
}

StandIn build_stand_in(const StandInDescription& description, Scene& scene, Problems& problems) {
    StandIn figure;
    figure.name = name_or_label(description.name, description);
    figure.pose = checked_word(description.pose, kPoses, figure.pose, problems);
    figure.position = checked_point(description.position, problems);
    figure.turn = build_turn(description, figure.position, problems);
    figure.height =
        static_cast<float>(checked_range(description.height_m, kFigureHeight, 0.3, 2.5, problems));
    figure.skin = add_named(figure.name + " skin", build_skin(description, problems), scene);
    Material hair;
    hair.measured =
        checked_word(description.hair, kHairs, MeasuredReflectance::kDarkHair, problems);
    if (hair.measured != MeasuredReflectance::kNone) {
        figure.hair = add_named(figure.name + " hair", hair, scene);
    }
    if (description.dress.given) {
        figure.dress =
            add_named(figure.name + " dress", build_dress(description.dress, problems), scene);
    }
    return figure;
}

}  // namespace

void build_stand_ins(const SetDescription& set, Scene& scene, Problems& problems) {
    for (const StandInDescription& description : set.stand_ins) {
        scene.stand_ins.push_back(build_stand_in(description, scene, problems));
    }
}

}  // namespace dapple
