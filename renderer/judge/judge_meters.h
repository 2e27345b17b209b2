// What a hand meter shows for a reading (ISO 2720:1974).
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
    std::vector<FixtureReading> by_fixture;  // in the same order
    double f_number = 0;                     // at the camera's shutter and ISO (E148)
    double stops_from_camera = 0;  // above 0: brighter than the camera's setting; -∞: no light
};

// Returns one judgement for each reading. Readings are in the order of `meters`, and each reading's
// fixtures in the order of `fixtures`.
std::vector<MeterJudgement> judge_meters(const std::vector<Reading>& readings,
                                         const std::vector<Meter>& meters,
                                         const std::vector<Fixture>& fixtures,
                                         const Camera& camera);

}  // namespace dapple
