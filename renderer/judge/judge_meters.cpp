#include "judge/judge_meters.h"

#include "develop/exposure.h"

namespace dapple {

namespace {

MeterJudgement judge_meter(const Reading& reading, const Meter& meter, const Camera& camera) {
    const double calibration =
        meter.receptor == ReceptorKind::kDome ? kDomeCalibration : kIncidentCalibration;
    MeterJudgement judgement;
    judgement.name = meter.name;
    judgement.receptor = meter.receptor;
    judgement.lux = reading.lux;
    judgement.lux_stderr = reading.lux_stderr;
    judgement.by_fixture = reading.by_fixture;
    judgement.f_number = metered_f_number(reading.lux, camera.shutter, camera.iso, calibration);
    const double ratio = judgement.f_number / static_cast<double>(camera.f_number);
    judgement.stops_from_camera = stops_from_ratio(ratio * ratio);
    return judgement;
}

}  // namespace

std::vector<MeterJudgement> judge_meters(const std::vector<Reading>& readings,
                                         const std::vector<Meter>& meters,
                                         const std::vector<Fixture>& fixtures,
                                         const Camera& camera) {
    std::vector<MeterJudgement> judgements;
    for (size_t m = 0; m < readings.size(); ++m) {
        judgements.push_back(judge_meter(readings[m], meters[m], camera));
        for (const Fixture& f : fixtures) judgements.back().fixtures.push_back(f.name);
    }
    return judgements;
}

}  // namespace dapple
