// Glass that cannot be made is refused with a reason, before anything is made.
#include "scene/glass/glass_limits.h"

#include <doctest/doctest.h>

#include "geometry/glassware/glass_samples.h"

namespace dapple {

namespace {

GlassObject jar() {
    return sample_glass(GlassForm::kJar, 0.26F, 0.12F, 0.003F);
}
GlassObject bottle() {
    return sample_glass(GlassForm::kBottle, 0.3F, 0.08F, 0.003F);
}

std::string problem_of(GlassObject glass, float GlassObject::*field, float value) {
    glass.*field = value;
    return glass_problem(glass);
}

}  // namespace

TEST_CASE("all samples can be made, empty or filled") {
    for (const GlassObject& glass : made_glasses()) CHECK(glass_problem(glass) == "");
    for (const GlassObject& glass : vessels()) CHECK(glass_problem(with_liquid(glass, 1)) == "");
}

TEST_CASE("sizes that are 0, negative or not numbers are refused") {
    for (const GlassObject& glass : {jar(), bottle()}) {
        for (const float bad : {0.0F, -1.0F, std::nanf("")}) {
            CHECK(problem_of(glass, &GlassObject::height, bad) != "");
            CHECK(problem_of(glass, &GlassObject::diameter, bad) != "");
            CHECK(problem_of(glass, &GlassObject::wall, bad) != "");
        }
    }
    CHECK(problem_of(sample_glass(GlassForm::kBall, 1, 1, 1), &GlassObject::diameter, 0) != "");
    CHECK(problem_of(sample_glass(GlassForm::kPane, 1, 1, 1), &GlassObject::width, 0) != "");
    CHECK(problem_of(jar(), &GlassObject::tilt, std::nanf("")) != "");
    CHECK(glass_problem(sample_glass(GlassForm::kMesh, 1, 1, 1)) == "the mesh is missing");
}

TEST_CASE("walls that leave no inside are refused") {
    CHECK(problem_of(jar(), &GlassObject::wall, 0.07F) != "");       // thicker than the radius
    CHECK(problem_of(jar(), &GlassObject::wall, 0.025F) != "");      // more than a fifth
    CHECK(problem_of(bottle(), &GlassObject::wall, 0.012F) != "");   // would close the neck
    CHECK(problem_of(jar(), &GlassObject::height, 0.005F) != "");    // lower than its own base
    CHECK(problem_of(bottle(), &GlassObject::height, 0.06F) != "");  // no room for a shoulder
    CHECK(glass_problem(with_ribs(jar(), 24, 0.03F)) != "");
}

TEST_CASE("one or two ribs are refused, and ribs without depth") {
    for (const int ribs : {-1, 1, 2, 257})
        CHECK(glass_problem(with_ribs(jar(), ribs, 0.001F)) != "");
    CHECK(glass_problem(with_ribs(jar(), 24, 0)) != "");
    CHECK(glass_problem(with_ribs(jar(), 3, 0.001F)) == "");
}

TEST_CASE("only vessels are filled, and not while they are tipped out") {
    CHECK(glass_problem(with_liquid(sample_glass(GlassForm::kBall, 1, 1, 1), 0.5F)) != "");
    CHECK(glass_problem(with_liquid(jar(), 0)) != "");
    CHECK(glass_problem(with_liquid(jar(), 1.1F)) != "");
    CHECK(problem_of(with_liquid(jar(), 0.5F), &GlassObject::tilt, 1.6F) != "");
    CHECK(problem_of(jar(), &GlassObject::tilt, 1.6F) == "");  // an empty jar may lie on its side
}

}  // namespace dapple
