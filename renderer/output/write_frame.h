// Pictures to hand over: PNG and JPEG with 8 bits, TIFF with 16, each with an sRGB profile and with
// what the camera was set to.
#pragma once

#include <memory>
#include <string>

#include "develop/develop.h"
#include "output/safe_file.h"

namespace dapple {

enum class FrameFormat { kPng, kJpeg, kTiff };

struct FrameNotes {
    std::string description;
    const Camera* camera =
        nullptr;  // exposure time, f-number, ISO and focal length; none: left out
};

// `display` comes from develop_display: sRGB encoded, 0 to 1. Returns the finished file, which is
// not at its path before its commit(), so that several files can appear together or not at all.
// Throws FileError.
std::unique_ptr<SafeFile> write_frame(const std::string& path,
                                      const Picture& display,
                                      FrameFormat format,
                                      const FrameNotes& notes);

}  // namespace dapple
