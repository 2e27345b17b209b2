// The frame of the set on the desk, rendered again whenever the set changes.
//
// One thread of its own works on the newest text only. It keeps a world that changes with the text
// (geometry/world.h) and the pilots of the frame before, so that only what differs is made again.
// While something is dragged it shows small frames, each as large as its time allows (live_pace.h);
// a frame is finished before the next step of the drag is taken up, and while the hand holds still
// a larger one follows. At rest the frame is rendered small, then larger, then pass after pass at
// the frame's size, with everything made anew: that frame is the one of `dapple render` with the
// same passes and seed. A newer text stops work at rest within a few hundredths of a second.
#pragma once

#include <atomic>
#include <condition_variable>
#include <cstdint>
#include <functional>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <thread>

#include "base/kept_parts.h"
#include "desk/live_light.h"
#include "desk/live_pace.h"
#include "glare/make_glare.h"
#include "load_set.h"
#include "render/render_frame.h"

namespace dapple {

// One state of the set.
struct LiveText {
    std::string text;
    uint64_t version = 0;
    bool is_moving = false;  // a drag goes on: only small frames
    Clock since = {};        // when the text came
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
        // The film of the newest picture, with its clean layers. At rest it has all that is judged.
        std::function<void(const LiveText&, std::shared_ptr<const FilmRecord>)> on_film;
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
    // Stops work until the next text: the page shows a change by itself and needs the processor.
    void pause();
    // While other work needs the processor, the frame stops after a few passes; afterwards the
    // newest text is rendered again. From any thread.
    void give_way(bool others_work);

  private:
    // A frame of one pass from the world that changes.
    struct QuickFrame {
        int width = 0;            // px
        bool is_anew = false;     // makes its own pilots
        bool keeps_light = true;  // so that dimmers can be mixed
    };

    void work();
    void render(const LiveText& text);
    void render_quick(const LiveText& text, const QuickFrame& frame);
    void refine_while_still(const LiveText& text, int width);
    // `first_passes`: before the frame is shown.
    void render_at_rest(const LiveText& text, int width, int first_passes);
    // Whether work on this text is to end.
    bool is_old(const LiveText& text) const;

    bool show_light(const LiveText& text);
    void show_frame(const LiveText& text,
                    const LoadedSet& set,
                    const RenderResult& result,
                    LensGlare& lens_glare,
                    bool keeps_light);

    void send_picture(const LiveText& text,
                      const Picture& picture,
                      const Progress& progress,
                      bool keeps_light);
    void look_for_things(const LiveText& text, const LoadedSet& set);

    std::string path_;
    KeepParts parts_;
    std::optional<LoadedSet> quick_;  // with a world that changes
    std::shared_ptr<const Pilots> pilots_;
    LivePace pace_;
    LiveLight light_;
    LivePicture lit_;  // the frame of `light_`, without its pixels
    // Of what the lens sees and should not, in the newest set at rest. Found once, at 480 px or
    // less.
    InFrame in_frame_;
    uint64_t in_frame_version_ = 0;
    Limits limits_;
    Listeners listeners_;
    mutable std::mutex mutex_;
    std::condition_variable wake_;
    std::optional<LiveText> next_;
    std::optional<LiveText> newest_;  // that was shown
    std::atomic<bool> gives_way_ = false;
    bool ending_ = false;
    bool paused_ = false;
    std::thread thread_;  // last: it uses the others
};

}  // namespace dapple
