#include "output/srgb_profile.h"

#include <lcms2.h>

#include <memory>
#include <stdexcept>

namespace dapple {

namespace {

struct ProfileEnd {
    void operator()(void* profile) const { cmsCloseProfile(profile); }
};

}  // namespace

std::vector<uint8_t> srgb_profile() {
    const std::unique_ptr<void, ProfileEnd> profile(cmsCreate_sRGBProfile());
    cmsUInt32Number size = 0;
    if (!profile || !cmsSaveProfileToMem(profile.get(), nullptr, &size)) {
        throw std::runtime_error("the sRGB profile could not be made");
    }
    std::vector<uint8_t> bytes(size);
    if (!cmsSaveProfileToMem(profile.get(), bytes.data(), &size)) {
        throw std::runtime_error("the sRGB profile could not be made");
    }
    return bytes;
}

}  // namespace dapple
