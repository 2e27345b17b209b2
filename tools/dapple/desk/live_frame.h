// The frame of the set on the desk, rendered again whenever the set changes.
//
// One thread of its own works on the newest text only: it reads the set, builds what rays meet, and
// renders the frame small, then larger, then pass after pass at the frame's size. A newer text
// stops it within a few hundredths of a second. At rest the frame is that of `dapple render` with
// the same passes and seed.
#pragma once

#include <atomic>
#include <condition_variable>
#include <cstdint>
#include <functional>
#include <mutex>
#include <optional>
#include <string>
#include <thread>

#include "desk/live_light.h"
#include "load_set.h"
#include "render/render_frame.h"

namespace dapple {

// One state of the set.
struct LiveText {
    std::string text;
    uint64_t version = 0;
    bool is_moving = false;  // a drag goes on: only small frames
};

struct LivePicture {
    uint64_t version = 0;  // of the text
    int width = 0, height = 0;
    int passes = 0;
    double seconds = 0;     // since the text came
    bool is_mixed = false;  // made of an older frame's lights, not rendered anew
    std::optional<double> noise_percent;
    std::string png = {};
};

class LiveFrame {
  public:
    struct Listeners {
        std::function<void(uint64_t, const Problems&)> on_problems;  // also none: the set is right
        std::function<void(uint64_t, const LoadedSet&)> on_set;
        std::function<void(LivePicture)> on_picture;
    };

    struct Limits {
        int width = 960;   // px, of the frame at rest
        int passes = 256;  // at rest
    };

    // `path`: of the set file, for what it names by relative paths. The listeners are called by the
    // frame's thread.
    LiveFrame(std::string path, const Limits& limits, Listeners listeners);
    ~LiveFrame();
    LiveFrame(const LiveFrame&) = delete;
    LiveFrame& operator=(const LiveFrame&) = delete;

    void show(LiveText text);
    // While other work needs the processor, the frame stops after a few passes; afterwards the
    // newest text is rendered again. From any thread.
    void give_way(bool others_work);

  private:
    struct Stage {
        int width = 0;         // px
        int first_passes = 1;  // before the frame is shown
    };

    void work();
    void render(const LiveText& text);
    // Whether the frame goes on to a larger one.
    bool render_at(LoadedSet& set, const LiveText& text, const Clock& clock, const Stage& stage);
    bool is_old() const;

    bool show_light(const LiveText& text);
    void show_frame(const LiveText& text, const LoadedSet& set, const RenderResult& result);

    std::string path_;
    LiveLight light_;
    LivePicture shown_;  // the newest, without its pixels
    Limits limits_;
    Listeners listeners_;
    mutable std::mutex mutex_;
    std::condition_variable wake_;
    std::optional<LiveText> next_;
    std::optional<LiveText> newest_;  // that was shown
    std::atomic<bool> gives_way_ = false;
    bool ending_ = false;
    std::thread thread_;  // last: it uses the others
};

}  // namespace dapple
