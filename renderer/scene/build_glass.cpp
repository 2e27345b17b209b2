// [[glass]] to GlassObject: made forms by their size, models by their closed mesh.
#include "base/units.h"
#include "scene/build_material.h"
#include "scene/check_mesh.h"
#include "scene/checks.h"
#include "scene/defaults.h"
#include "scene/glass_limits.h"
#include "scene/make_mesh.h"
#include "scene/read_model.h"
#include "scene/scene_parts.h"

namespace dapple {

namespace {

const std::vector<std::pair<std::string, GlassForm>> kForms{{"jar", GlassForm::kJar},
                                                            {"bottle", GlassForm::kBottle},
                                                            {"tumbler", GlassForm::kTumbler},
                                                            {"pane", GlassForm::kPane},
                                                            {"ball", GlassForm::kBall}};

constexpr double kMaxGlassMm = 20000;

MaterialId add_material(Scene& scene, Material material) {
    scene.materials.push_back(std::move(material));
    return static_cast<MaterialId>(scene.materials.size()) - 1;
}

float length_from_mm(const Field<double>& mm, double fallback, Problems& problems) {
    return static_cast<float>(
        metres_from_mm(checked_positive(mm, 1e3 * fallback, kMaxGlassMm, problems)));
}

void note_unused(const GlassDescription& description,
                 const std::vector<const Field<double>*>& fields,
                 const std::string& why,
                 Problems& problems) {
    for (const Field<double>* field : fields) {
        if (field->written) problems.note(field->place, field->key, "is not used: " + why);
    }
    if (description.ribs.written && !description.form.given) {
        problems.note(description.ribs.place, description.ribs.key, "is not used: " + why);
    }
}

void build_size(const GlassDescription& description, GlassObject& glass, Problems& problems) {
    const GlassSize size = default_glass_size(glass.form);
    glass.height = length_from_mm(description.height_mm, size.height, problems);
    glass.diameter = length_from_mm(description.diameter_mm, size.diameter, problems);
    glass.width = length_from_mm(description.width_mm, size.width, problems);
    glass.wall = length_from_mm(description.wall_mm, size.wall, problems);
    if (glass.form == GlassForm::kPane) {
        note_unused(description, {&description.diameter_mm}, "a pane has width_mm", problems);
    } else if (glass.form == GlassForm::kBall) {
        glass.height = glass.diameter;
        note_unused(description,
                    {&description.height_mm, &description.wall_mm, &description.width_mm},
                    "a ball is solid and has only diameter_mm",
                    problems);
    } else {
        note_unused(description, {&description.width_mm}, "only a pane has it", problems);
    }
}

void build_ribs(const GlassDescription& description, GlassObject& glass, Problems& problems) {
    const int ribs = checked_whole(description.ribs, 0, 0, 256, problems);
    const double depth_mm =
        checked_range(description.rib_depth_mm, 1e3 * kRibDepth, 0, kMaxGlassMm, problems);
    if (!is_vessel(glass.form)) {
        if (ribs > 0) {
            problems.add(
                description.ribs.place, description.ribs.key, "belongs to jar, bottle and tumbler");
        }
        return;
    }
    glass.ribs = ribs;
    glass.rib_depth = ribs > 0 ? static_cast<float>(metres_from_mm(depth_mm)) : 0.0F;
}

void build_fill(const GlassDescription& description,
                Scene& scene,
                GlassObject& glass,
                Problems& problems) {
    if (!description.fill.given) return;
    const FillDescription& fill = description.fill;
    check_written(fill.level, "give the share of the inner height, from 0 to 1", problems);
    const double level = checked_range(fill.level, 0, 0, 1, problems);
    Material liquid;
    liquid.name = glass.name + ": liquid";
    liquid.kind = MaterialKind::kGlass;
    liquid.glass = checked_word<GlassType>(
        fill.liquid, {{"water", GlassType::kWater}}, GlassType::kWater, problems);
    liquid.priority = kLiquidPriority;
    if (level <= 0) return;  // empty
    glass.liquid_level = static_cast<float>(level);
    glass.liquid = add_material(scene, std::move(liquid));
}

// The field that a limit of glass_limits.h speaks of, so far as one can tell.
void check_limits(const GlassDescription& description,
                  const GlassObject& glass,
                  Problems& problems) {
    const Field<double>& wall = description.wall_mm;
    if (is_vessel(glass.form) && wall.given && glass.wall >= 0.5F * glass.diameter) {
        add_problem(
            wall, "below the radius, " + number_text(500.0 * glass.diameter) + " mm", problems);
        return;
    }
    const std::string problem = glass_problem(glass);
    if (problem.empty()) return;
    const bool of_fill = !fill_problem(glass).empty();
    const Place& place = of_fill      ? description.fill.place
                         : wall.given ? wall.place
                                      : description.place;
    problems.add(place, description.label, problem);
}

void build_made(const GlassDescription& description,
                Scene& scene,
                GlassObject& glass,
                Problems& problems) {
    const size_t problems_before = problems.all().size();
    glass.form = checked_word(description.form, kForms, glass.form, problems);
    for (const Field<std::string>* field : {&description.units.unit, &description.units.up}) {
        if (field->written) problems.add(field->place, field->key, "belongs to model");
    }
    build_size(description, glass, problems);
    build_ribs(description, glass, problems);
    build_fill(description, scene, glass, problems);
    if (problems.all().size() == problems_before) check_limits(description, glass, problems);
}

void build_model(const GlassDescription& description,
                 const std::string& set_path,
                 Scene& scene,
                 GlassObject& glass,
                 Problems& problems) {
    glass.form = GlassForm::kMesh;
    note_unused(description,
                {&description.height_mm,
                 &description.diameter_mm,
                 &description.width_mm,
                 &description.wall_mm,
                 &description.rib_depth_mm},
                "the model has its own size",
                problems);
    if (description.fill.given) {
        problems.add(description.fill.place,
                     description.fill.label,
                     "belongs to jar, bottle and tumbler; give the liquid as a model of its own "
                     "with glass = \"water\"");
    }
    const ModelAxes axes = build_model_axes(description.units, problems);
    const std::optional<ObjDescription> obj = read_model(description.model, set_path, problems);
    if (!obj) return;
    const std::vector<MaterialId> materials(obj->materials.size() + 1, glass.material);
    Mesh mesh = make_mesh(*obj, all_triangles(*obj), axes, materials);
    mesh.name = glass.name;
    const std::string trouble = trouble_as_glass(mesh);
    if (!trouble.empty()) {
        problems.add(description.model.place,
                     description.model.key,
                     "\"" + description.model.value + "\" " + trouble);
        return;
    }
    orient_outward(mesh);
    glass.mesh = static_cast<int>(scene.glass_meshes.size());
    scene.glass_meshes.push_back(std::move(mesh));
}

void add_glass(const GlassDescription& description,
               const std::string& set_path,
               Scene& scene,
               Problems& problems) {
    GlassObject glass;
    glass.name = name_or_label(description.name, description);
    glass.position = checked_point(description.position, problems);
    glass.position.y += kAirFilm;
    glass.turn = static_cast<float>(
        radians_from_degrees(checked_range(description.turn_deg, 0, -3600, 3600, problems)));
    glass.tilt = static_cast<float>(
        radians_from_degrees(checked_range(description.tilt_deg, 0, -360, 360, problems)));
    Material material;
    material.name = glass.name;
    build_glass_material(description.glass,
                         description.tint,
                         description.roughness,
                         description.priority,
                         material,
                         problems);
    glass.material = add_material(scene, std::move(material));
    if (description.form.written == description.model.written) {
        problems.add(description.model.written ? description.model.place : description.place,
                     description.label,
                     "needs exactly one of form (jar, bottle, tumbler, pane, ball) and model");
    } else if (description.model.given) {
        build_model(description, set_path, scene, glass, problems);
    } else if (description.form.given) {
        build_made(description, scene, glass, problems);
    }
    scene.glasses.push_back(glass);
}

}  // namespace

void build_glasses(const SetDescription& set, Scene& scene, Problems& problems) {
    for (const GlassDescription& glass : set.glasses) add_glass(glass, set.path, scene, problems);
}

}  // namespace dapple
