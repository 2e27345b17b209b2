// Builds a GlassObject from [[glass]]: a made form with its sizes, or a closed mesh from a model.
#include "base/units.h"
#include "scene/build_material.h"
#include "scene/checks.h"
#include "scene/defaults.h"
#include "scene/glass/build_glass_surface.h"
#include "scene/glass/glass_limits.h"
#include "scene/models/check_mesh.h"
#include "scene/models/make_mesh.h"
#include "scene/models/read_model.h"
#include "scene/part_builders.h"

namespace dapple {

namespace {

const std::vector<std::pair<std::string, GlassForm>> kGlassForms{{"jar", GlassForm::kJar},
                                                                 {"bottle", GlassForm::kBottle},
                                                                 {"tumbler", GlassForm::kTumbler},
                                                                 {"demijohn", GlassForm::kDemijohn},
                                                                 {"carafe", GlassForm::kCarafe},
                                                                 {"ball", GlassForm::kBall},
                                                                 {"rod", GlassForm::kRod},
                                                                 {"pane", GlassForm::kPane}};

const std::vector<std::pair<std::string, GlassType>> kLiquids{{"water", GlassType::kWater},
                                                              {"oil", GlassType::kOil}};

constexpr double kMaxGlassMm = 20000;

void note_unused(const std::vector<const Field<double>*>& fields,
                 const std::string& why,
                 Problems& problems) {
    for (const Field<double>* field : fields) {
        if (field->written) problems.note(field->place, field->key, "is not used: " + why);
    }
}

void build_size(const GlassDescription& description, GlassObject& glass, Problems& problems) {
    const GlassSize size = default_glass_size(glass.form);
    glass.height = checked_metres(description.height_mm, size.height, kMaxGlassMm, problems);
    glass.diameter = checked_metres(description.diameter_mm, size.diameter, kMaxGlassMm, problems);
    glass.width = checked_metres(description.width_mm, size.width, kMaxGlassMm, problems);
    glass.wall = checked_metres(description.wall_mm, size.wall, kMaxGlassMm, problems);
    if (glass.form == GlassForm::kPane) {
        note_unused({&description.diameter_mm}, "a pane has width_mm", problems);
    } else if (glass.form == GlassForm::kBall) {
        glass.height = glass.diameter;
        note_unused({&description.height_mm, &description.wall_mm, &description.width_mm},
                    "a ball is solid and has only diameter_mm",
                    problems);
    } else if (glass.form == GlassForm::kRod) {
        note_unused({&description.wall_mm, &description.width_mm},
                    "a rod is solid and has diameter_mm and height_mm",
                    problems);
    } else {
        note_unused({&description.width_mm}, "only a pane has it", problems);
    }
}

void build_bubbles(const GlassDescription& description,
                   Scene& scene,
                   GlassObject& glass,
                   Problems& problems) {
    const bool seeded = description.surface.given && description.surface.value == "seeded";
    glass.bubbles = checked_whole(description.bubbles, seeded ? kBubbles : 0, 0, 400, problems);
    const double largest = glass.wall > 0 ? kBubblePerWall * glass.wall : kBubbleInSolid;
    glass.bubble_diameter = checked_metres(description.bubble_mm, largest, kMaxGlassMm, problems);
    if (glass.bubbles == 0) {
        note_unused({&description.bubble_mm}, "there are no bubbles", problems);
        return;
    }
    Material air;
    air.name = glass.name + ": bubbles";
    air.kind = MaterialKind::kGlass;
    air.glass = GlassType::kAir;
    air.priority =
        std::max(kAirPriority, scene.materials[static_cast<size_t>(glass.material)].priority + 1);
    glass.air = add_material(scene, std::move(air));
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
    liquid.glass = checked_word(fill.liquid, kLiquids, GlassType::kWater, problems);
    liquid.priority = kLiquidPriority;
    if (level <= 0) return;  // empty
    glass.liquid_level = static_cast<float>(level);
    glass.liquid = add_material(scene, std::move(liquid));
}

// Checks the limits of glass_limits.h and reports a problem at the field that is most likely wrong.
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
    const auto nearest = [&]() -> const Place& {
        if (!fill_problem(glass).empty()) return description.fill.place;
        if (!bubble_problem(glass).empty()) return description.bubbles.place;
        const bool of_surface = !surface_problem(glass).empty();
        for (const Field<double>* field :
             {&description.pattern_depth_mm, &description.pattern_mm, &description.rib_depth_mm}) {
            if (of_surface && field->given) return field->place;
        }
        return wall.given ? wall.place : description.place;
    };
    problems.add(nearest(), description.label, problem);
}

void build_made(const GlassDescription& description,
                Scene& scene,
                GlassObject& glass,
                Problems& problems) {
    const size_t problems_before = problems.all().size();
    glass.form = checked_word(description.form, kGlassForms, glass.form, problems);
    for (const Field<std::string>* field : {&description.units.unit, &description.units.up}) {
        if (field->written)
            problems.add(
                field->place, field->key, "is only for a model; made glass is in millimetres");
    }
    build_size(description, glass, problems);
    build_glass_surface(description, glass, problems);
    build_bubbles(description, scene, glass, problems);
    build_fill(description, scene, glass, problems);
    if (problems.all().size() == problems_before) check_limits(description, glass, problems);
}

void build_model(const GlassDescription& description,
                 Scene& scene,
                 GlassObject& glass,
                 Problems& problems) {
    glass.form = GlassForm::kMesh;
    note_unused({&description.height_mm,
                 &description.diameter_mm,
                 &description.width_mm,
                 &description.wall_mm},
                "the model has its own size",
                problems);
    refuse_surface(description, "belongs to made forms; a model has its own surface", problems);
    if (description.fill.given) {
        problems.add(description.fill.place,
                     description.fill.label,
                     "belongs to jar, bottle, tumbler, demijohn and carafe; give the liquid as a "
                     "model of its own with glass = \"water\"");
    }
    const std::optional<ModelDescription> model =
        read_model(description.model, ModelParts::kShape, problems);
    if (!model) return;
    const ModelAxes axes = build_model_axes(description.model, description.units, *model, problems);
    const std::vector<MaterialId> materials(model->materials.size() + 1, glass.material);
    Mesh mesh = make_mesh(*model, all_triangles(*model), axes, materials);
    mesh.name = glass.name;
    const std::string problem = problem_as_glass(mesh);
    if (!problem.empty()) {
        problems.add(description.model.place,
                     description.model.key,
                     "\"" + description.model.value + "\" " + problem);
        return;
    }
    orient_outward(mesh);
    glass.mesh = static_cast<int>(scene.glass_meshes.size());
    scene.glass_meshes.push_back(std::move(mesh));
}

// Gives one side a rough material of the same medium; the other side stays smooth.
void build_frost(const GlassDescription& description,
                 Scene& scene,
                 GlassObject& glass,
                 Problems& problems) {
    const Field<std::string>& frosted = description.frosted;
    if (!frosted.given) return;
    MaterialId GlassObject::*const face = checked_word<MaterialId GlassObject::*>(
        frosted,
        {{"outside", &GlassObject::outer_face}, {"inside", &GlassObject::inner_face}},
        &GlassObject::outer_face,
        problems);
    if (description.model.written) {
        problems.add(frosted.place,
                     frosted.key,
                     "belongs to made forms; roughness alone frosts a model all over");
        return;
    }
    const bool solid = glass.form == GlassForm::kBall || glass.form == GlassForm::kRod;
    if (solid && face == &GlassObject::inner_face) {
        problems.add(frosted.place,
                     frosted.key,
                     "is \"inside\"; a ball and a rod are solid and have only an outside");
        return;
    }
    Material frost = scene.materials[static_cast<size_t>(glass.material)];
    frost.name += ": frosted";
    frost.medium = glass.material;
    frost.roughness =
        static_cast<float>(checked_positive(description.roughness, kFrostRoughness, 1, problems));
    scene.materials[static_cast<size_t>(glass.material)].roughness = 0;
    glass.*face = add_material(scene, std::move(frost));
}

void add_glass(const GlassDescription& description, Scene& scene, Problems& problems) {
    GlassObject glass;
    glass.name = name_or_label(description.name, description);
    glass.kit = description.kit;
    glass.position = checked_point(description.position, problems);
    glass.position.y += kAirFilm;
    glass.turn = checked_radians(description.turn_deg, 0, -3600, 3600, problems);
    glass.tilt = checked_radians(description.tilt_deg, 0, -360, 360, problems);
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
        problems.add(
            description.model.written ? description.model.place : description.place,
            description.label,
            "needs exactly one of form (jar, bottle, tumbler, demijohn, carafe, ball, rod, pane) "
            "and model");
    } else if (description.model.given) {
        build_model(description, scene, glass, problems);
    } else if (description.form.given) {
        build_made(description, scene, glass, problems);
    }
    build_frost(description, scene, glass, problems);
    scene.glasses.push_back(glass);
}

}  // namespace

void build_glasses(const SetDescription& set, Scene& scene, Problems& problems) {
    for (const GlassDescription& glass : set.glasses) add_glass(glass, scene, problems);
}

}  // namespace dapple
