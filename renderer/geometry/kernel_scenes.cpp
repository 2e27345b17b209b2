#include "geometry/kernel_scenes.h"

#include <new>
#include <stdexcept>
#include <string>

namespace dapple {

namespace {

void on_embree_error(void*, RTCError code, const char* message) {
    if (code == RTC_ERROR_OUT_OF_MEMORY) throw std::bad_alloc();
    throw std::runtime_error(std::string("ray tracing kernels: ") + (message ? message : "?"));
}

// A new buffer of `count` elements of `per_element` floats.
float* new_floats(
    RTCGeometry geometry, RTCBufferType type, RTCFormat format, size_t per_element, size_t count) {
    return static_cast<float*>(
        rtcSetNewGeometryBuffer(geometry, type, 0, format, per_element * sizeof(float), count));
}

void put(float* to, const Vec3& v) {
    to[0] = v.x;
    to[1] = v.y;
    to[2] = v.z;
}

}  // namespace

KernelScenes::KernelScenes() {
    device_ = rtcNewDevice(nullptr);
    if (!device_) throw std::runtime_error("ray tracing kernels: no device on this machine");
    rtcSetDeviceErrorFunction(device_, on_embree_error, nullptr);
    all_ = rtcNewScene(device_);
    opaque_ = rtcNewScene(device_);
    see_through_ = rtcNewScene(device_);
    for (RTCScene scene : {all_, opaque_, see_through_}) {
        // Robust: rays must not slip through between the triangles of a glass. Embree ignores
        // a higher quality of build where a scene is robust.
        rtcSetSceneFlags(scene, RTC_SCENE_FLAG_ROBUST);
        rtcSetSceneBuildQuality(scene, RTC_BUILD_QUALITY_MEDIUM);
    }
    // A shadow ray may slip through: none of two million recorded ones did. Replays of shadow rays
    // take 0.81 of the time (tools/bench/README.md).
    rtcSetSceneFlags(opaque_, RTC_SCENE_FLAG_NONE);
}

KernelScenes::~KernelScenes() {
    if (opaque_ != all_) rtcReleaseScene(opaque_);
    rtcReleaseScene(see_through_);
    rtcReleaseScene(all_);
    rtcReleaseDevice(device_);
}

void KernelScenes::add_triangles(uint32_t body,
                                 const Mesh& mesh,
                                 const std::vector<uint32_t>& picked,
                                 bool see_through) {
    RTCGeometry geometry = rtcNewGeometry(device_, RTC_GEOMETRY_TYPE_TRIANGLE);
    float* vertices =
        new_floats(geometry, RTC_BUFFER_TYPE_VERTEX, RTC_FORMAT_FLOAT3, 3, mesh.positions.size());
    for (size_t i = 0; i < mesh.positions.size(); ++i) put(vertices + 3 * i, mesh.positions[i]);
    auto* indices = static_cast<unsigned*>(rtcSetNewGeometryBuffer(
        geometry, RTC_BUFFER_TYPE_INDEX, 0, RTC_FORMAT_UINT3, 3 * sizeof(unsigned), picked.size()));
    for (size_t i = 0; i < picked.size(); ++i) {
        for (int c = 0; c < 3; ++c) {
            indices[3 * i + static_cast<size_t>(c)] = mesh.triangles[picked[i]][c];
        }
    }
    rtcCommitGeometry(geometry);
    rtcAttachGeometryByID(all_, geometry, body);
    rtcAttachGeometryByID(see_through ? see_through_ : opaque_, geometry, body);
    rtcReleaseGeometry(geometry);
    any_see_through_ = any_see_through_ || see_through;
}

void KernelScenes::commit() {
    rtcCommitScene(all_);
    rtcCommitScene(see_through_);
    if (any_see_through_) {
        rtcCommitScene(opaque_);
    } else {
        rtcReleaseScene(opaque_);
        opaque_ = all_;
    }
}

}  // namespace dapple
