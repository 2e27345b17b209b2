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
        // Robust: rays must not slip through between the triangles of a glass.
        rtcSetSceneFlags(scene, RTC_SCENE_FLAG_ROBUST);
        rtcSetSceneBuildQuality(scene, RTC_BUILD_QUALITY_MEDIUM);
    }
}

KernelScenes::~KernelScenes() {
    if (opaque_ != all_) rtcReleaseScene(opaque_);
    rtcReleaseScene(see_through_);
    rtcReleaseScene(all_);
    rtcReleaseDevice(device_);
}

void KernelScenes::attach(uint32_t body, RTCGeometry geometry, bool see_through) {
    rtcCommitGeometry(geometry);
    rtcAttachGeometryByID(all_, geometry, body);
    any_see_through_ = any_see_through_ || see_through;
    rtcAttachGeometryByID(see_through ? see_through_ : opaque_, geometry, body);
    rtcReleaseGeometry(geometry);
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
    attach(body, geometry, see_through);
}

RTCGeometry KernelScenes::make_panel_face(const Fixture& f) {
    const Frame frame = fixture_frame(f);
    const Vec3 s = 0.5F * f.panel_size.x * frame.s;
    const Vec3 t = 0.5F * f.panel_size.y * frame.t;
    RTCGeometry geometry = rtcNewGeometry(device_, RTC_GEOMETRY_TYPE_QUAD);
    float* corners = new_floats(geometry, RTC_BUFFER_TYPE_VERTEX, RTC_FORMAT_FLOAT3, 3, 4);
    put(corners, f.position - s - t);
    put(corners + 3, f.position - s + t);
    put(corners + 6, f.position + s + t);
    put(corners + 9, f.position + s - t);
    auto* quad = static_cast<unsigned*>(rtcSetNewGeometryBuffer(
        geometry, RTC_BUFFER_TYPE_INDEX, 0, RTC_FORMAT_UINT4, 4 * sizeof(unsigned), 1));
    for (unsigned i = 0; i < 4; ++i) quad[i] = i;
    return geometry;
}

// The ball of a bare lamp, or the disc of a spot.
RTCGeometry KernelScenes::make_round_face(const Fixture& f) {
    const bool is_ball = f.form == FixtureForm::kBare;
    RTCGeometry geometry = rtcNewGeometry(
        device_, is_ball ? RTC_GEOMETRY_TYPE_SPHERE_POINT : RTC_GEOMETRY_TYPE_ORIENTED_DISC_POINT);
    float* centre = new_floats(geometry, RTC_BUFFER_TYPE_VERTEX, RTC_FORMAT_FLOAT4, 4, 1);
    put(centre, f.position);
    centre[3] = 0.5F * f.source_diameter;
    if (!is_ball) {
        put(new_floats(geometry, RTC_BUFFER_TYPE_NORMAL, RTC_FORMAT_FLOAT3, 3, 1), f.axis);
    }
    return geometry;
}

bool KernelScenes::add_lamp_face(uint32_t body, const Fixture& f) {
    const bool is_panel = f.form == FixtureForm::kPanel;
    if (!is_panel && 0.5F * f.source_diameter <= 0.0F) return false;
    attach(body, is_panel ? make_panel_face(f) : make_round_face(f), false);
    return true;
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
