// Builds the Camera from [camera].
#include <algorithm>
#include <cmath>

#include "base/units.h"
#include "scene/camera_and_measures/build_lens.h"
#include "scene/checks.h"
#include "scene/part_builders.h"

namespace dapple {

namespace {

constexpr int kMaxFramePx = 16384;          // per side
constexpr double kAspectTolerance = 0.005;  // less than 2 px of a 360 px side, which is not visible

// The largest part of the sensor with the frame's aspect.
Vec2 used_sensor(const CameraDescription& description,
                 const Vec2& sensor,
                 int width,
                 int height,
                 Problems& problems) {
    const float frame_aspect = static_cast<float>(width) / static_cast<float>(height);
    const float sensor_aspect = sensor.x / sensor.y;
    if (std::abs(frame_aspect / sensor_aspect - 1) <= kAspectTolerance) return sensor;
    const Vec2 used(std::min(sensor.x, sensor.y * frame_aspect),
                    std::min(sensor.y, sensor.x / frame_aspect));
    problems.note(description.frame_px.place,
                  description.frame_px.key,
                  "has another aspect than the sensor; the frame uses " +
                      number_text(1e3 * used.x) + " x " + number_text(1e3 * used.y) +
                      " mm of its " + number_text(1e3 * sensor.x) + " x " +
                      number_text(1e3 * sensor.y) + " mm");
    return used;
}

void build_frame_size(const CameraDescription& description, Camera& camera, Problems& problems) {
    if (!description.frame_px.given) return;
    for (const int64_t side : description.frame_px.value) {
        if (side >= 1 && side <= kMaxFramePx) continue;
        problems.add(description.frame_px.place,
                     description.frame_px.key,
                     "has " + std::to_string(side) + "; both must be from 1 to " +
                         std::to_string(kMaxFramePx));
        return;
    }
    camera.width = static_cast<int>(description.frame_px.value[0]);
    camera.height = static_cast<int>(description.frame_px.value[1]);
}

void build_focus(const CameraDescription& description, Camera& camera, Problems& problems) {
    const double focus = checked_positive(description.focus_m, 0, 1e5, problems);
    if (focus > 0 && focus <= camera.focal_length) {
        add_problem(description.focus_m,
                    "above the focal length, " + number_text(camera.focal_length) + " m",
                    problems);
        return;
    }
    camera.focus_distance = static_cast<float>(focus);
}

}  // namespace

Camera build_camera(const CameraDescription& description, Problems& problems) {
    Camera camera;
    if (!description.given) {
        problems.add(description.place, "camera", "is missing; a set needs one [camera]");
        return camera;
    }
    camera.position = checked_point(description.position, problems);
    camera.frame = looking_frame(
        checked_aim(description.aim, description.position, "the camera looks", problems));
    const Triple& aim = description.aim.value;
    camera.aim = Point(aim[0], aim[1], aim[2]);
    const auto positive = [&](const Field<double>& field, float fallback, double high) {
        return static_cast<float>(checked_positive(field, fallback, high, problems));
    };
    const auto focal_mm = positive(description.focal_length_mm, 1e3F * camera.focal_length, 1e4);
    camera.focal_length = static_cast<float>(metres_from_mm(focal_mm));
    camera.sensor =
        1e-3F * checked_size(description.sensor_mm, 1e3F * camera.sensor, 1e3, problems);
    build_frame_size(description, camera, problems);
    camera.sensor = used_sensor(description, camera.sensor, camera.width, camera.height, problems);
    camera.f_number = positive(description.f_number, camera.f_number, 256);
    camera.shutter = positive(description.shutter_s, camera.shutter, 1e5);
    camera.iso = positive(description.iso, camera.iso, 1e7);
    camera.white_k = static_cast<float>(
        checked_range(description.white_k, camera.white_k, 1500, 25000, problems));
    build_focus(description, camera, problems);
    camera.lens = build_lens(description, problems);
    return camera;
}

}  // namespace dapple
