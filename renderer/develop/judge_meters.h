// What a hand meter would show for a reading (ISO 2720:1974).
#pragma once

#include <string>
#include <vector>

#include "film/meter_film.h"
#include "scene/scene.h"

namespace dapple {

struct MeterJudgement {
    std::string name;
    ReceptorKind receptor = ReceptorKind::kFlat;
    double lux = 0;
    double lux_stderr = 0;
    std::vector<std::string> fixtures;       // names, in the scene's order
    std::vector<FixtureReading> by_fixture;  // of them
    double f_number = 0;                     // at the camera's shutter and ISO (D2)
    double stops_from_camera = 0;            // brighter than the camera is set for: above 0; -inf
};

// One for each meter of the scene; `readings` in the scene's order.
std::vector<MeterJudgement> judge_meters(const std::vector<Reading>& readings, const Scene& scene);

}  // namespace dapple
