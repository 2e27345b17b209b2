#include "geometry/kernel_scenes.h"

#include <cstring>
#include <functional>
#include <new>
#include <stdexcept>
#include <string>

#include "base/parallel.h"

namespace dapple {

namespace {

void on_embree_error(void*, RTCError code, const char* message) {
    if (code == RTC_ERROR_OUT_OF_MEMORY) throw std::bad_alloc();
    if (code == RTC_ERROR_CANCELLED) throw StoppedWork();
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

RTCGeometry make_triangles(RTCDevice device,
                           const Mesh& mesh,
                           const std::vector<uint32_t>& picked) {
    RTCGeometry geometry = rtcNewGeometry(device, RTC_GEOMETRY_TYPE_TRIANGLE);
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
    return geometry;
}

// Whether a geometry has its vertices at the same places.
bool has_places(RTCGeometry geometry, const Mesh& mesh) {
    static_assert(sizeof(Point) == 3 * sizeof(float));
    const void* const vertices = rtcGetGeometryBufferData(geometry, RTC_BUFFER_TYPE_VERTEX, 0);
    return std::memcmp(vertices, mesh.positions.data(), mesh.positions.size() * sizeof(Point)) == 0;
}

// Whether its triangles have the same corners.
bool has_triangles(RTCGeometry geometry, const Mesh& mesh, const std::vector<uint32_t>& picked) {
    const auto* indices =
        static_cast<const unsigned*>(rtcGetGeometryBufferData(geometry, RTC_BUFFER_TYPE_INDEX, 0));
    for (const uint32_t triangle : picked) {
        for (int c = 0; c < 3; ++c) {
            if (*indices++ != mesh.triangles[triangle][c]) return false;
        }
    }
    return true;
}

// The tree keeps its form, and its boxes are fitted anew.
void move_vertices(RTCGeometry geometry, const Mesh& mesh) {
    void* const vertices = rtcGetGeometryBufferData(geometry, RTC_BUFFER_TYPE_VERTEX, 0);
    std::memcpy(vertices, mesh.positions.data(), mesh.positions.size() * sizeof(Point));
    rtcUpdateGeometryBuffer(geometry, RTC_BUFFER_TYPE_VERTEX, 0);
    rtcSetGeometryBuildQuality(geometry, RTC_BUILD_QUALITY_REFIT);
    rtcCommitGeometry(geometry);
}

// Embree calls this from its own threads.
bool may_build_on(void* stops, double) {
    return !(*static_cast<const std::function<bool()>*>(stops))();
}

}  // namespace

KernelScenes::KernelScenes(WorldUse use) : is_changing_(use == WorldUse::kChanging) {
    device_ = rtcNewDevice(nullptr);
    if (!device_) throw std::runtime_error("ray tracing kernels: no device on this machine");
    rtcSetDeviceErrorFunction(device_, on_embree_error, nullptr);
    opaque_ = rtcNewScene(device_);
    see_through_ = rtcNewScene(device_);
    if (is_changing_) {
        // With these two, Embree builds one tree for each body.
        const RTCSceneFlags flags = RTC_SCENE_FLAG_ROBUST | RTC_SCENE_FLAG_DYNAMIC;
        for (RTCScene scene : {opaque_, see_through_}) set_up(scene, flags, RTC_BUILD_QUALITY_LOW);
        first_ = opaque_;
        return;
    }
    first_ = all_ = rtcNewScene(device_);
    // Robust: rays must not slip through between the triangles of a glass. Embree ignores a higher
    // quality of build where a scene is robust.
    for (RTCScene scene : {all_, see_through_}) {
        set_up(scene, RTC_SCENE_FLAG_ROBUST, RTC_BUILD_QUALITY_MEDIUM);
    }
    // A shadow ray may slip through: none of two million recorded ones did. Replays of shadow rays
    // take 0.81 of the time (tools/bench/README.md).
    set_up(opaque_, RTC_SCENE_FLAG_NONE, RTC_BUILD_QUALITY_MEDIUM);
}

void KernelScenes::set_up(RTCScene scene, RTCSceneFlags flags, RTCBuildQuality quality) const {
    rtcSetSceneFlags(scene, flags);
    rtcSetSceneBuildQuality(scene, quality);
}

KernelScenes::~KernelScenes() {
    for (Attached& body : attached_) {
        if (body.geometry) rtcReleaseGeometry(body.geometry);
    }
    if (opaque_ != all_) rtcReleaseScene(opaque_);
    rtcReleaseScene(see_through_);
    if (all_) rtcReleaseScene(all_);
    rtcReleaseDevice(device_);
}

void KernelScenes::begin_again() {
    for (Attached& body : attached_) body.is_present = false;
    lamp_faces_ = LampFaces();
    any_see_through_ = false;
    rebuilt_ = 0;
}

bool KernelScenes::has_form(const Attached& body,
                            const Mesh& mesh,
                            const std::vector<uint32_t>& picked,
                            bool see_through) {
    return body.geometry && body.see_through == see_through &&
           body.vertices == mesh.positions.size() && body.triangles == picked.size() &&
           has_triangles(body.geometry, mesh, picked);
}

void KernelScenes::detach(Attached& body, uint32_t number) {
    if (!body.geometry) return;
    rtcDetachGeometry(scene_of(body.see_through), number);
    rtcReleaseGeometry(body.geometry);
    body.geometry = nullptr;
}

void KernelScenes::add_triangles(uint32_t body,
                                 const Mesh& mesh,
                                 const std::vector<uint32_t>& picked,
                                 bool see_through) {
    any_see_through_ = any_see_through_ || see_through;
    if (!is_changing_) {
        RTCGeometry geometry = make_triangles(device_, mesh, picked);
        rtcAttachGeometryByID(all_, geometry, body);
        rtcAttachGeometryByID(see_through ? see_through_ : opaque_, geometry, body);
        rtcReleaseGeometry(geometry);
        return;
    }
    if (attached_.size() <= body) attached_.resize(body + 1);
    Attached& there = attached_[body];
    there.is_present = true;
    if (has_form(there, mesh, picked, see_through)) {
        if (has_places(there.geometry, mesh)) return;
        move_vertices(there.geometry, mesh);
        ++rebuilt_;
        return;
    }
    detach(there, body);
    there.geometry = make_triangles(device_, mesh, picked);
    there.vertices = mesh.positions.size();
    there.triangles = picked.size();
    there.see_through = see_through;
    rtcAttachGeometryByID(scene_of(see_through), there.geometry, body);
    ++rebuilt_;
}

void KernelScenes::commit() {
    // Trees that each belong to one body do not survive a build that was stopped.
    const std::function<bool()>* const stops = is_changing_ ? nullptr : stops_of_this_thread();
    if (stops) {
        for (RTCScene scene : {all_, opaque_, see_through_}) {
            if (!scene) continue;
            rtcSetSceneProgressMonitorFunction(
                scene, may_build_on, const_cast<std::function<bool()>*>(stops));
        }
    }
    if (is_changing_) {
        for (uint32_t i = 0; i < attached_.size(); ++i) {
            if (!attached_[i].is_present) detach(attached_[i], i);
        }
    } else {
        rtcCommitScene(all_);
    }
    if (!is_changing_) stop_if_asked();
    rtcCommitScene(see_through_);
    if (!is_changing_) stop_if_asked();
    if (is_changing_ || any_see_through_) {
        rtcCommitScene(opaque_);
    } else {
        rtcReleaseScene(opaque_);
        opaque_ = all_;
    }
    for (RTCScene scene : {all_, opaque_, see_through_}) {
        if (scene) rtcSetSceneProgressMonitorFunction(scene, nullptr, nullptr);
    }
}

}  // namespace dapple
