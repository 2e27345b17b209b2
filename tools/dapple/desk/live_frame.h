// The frame of the set on the desk, rendered again whenever the set changes.
//
// One thread of its own works on the newest text only. It keeps a world that changes with the text
// (geometry/world.h) and the pilots of the frame before, so that only what differs is made again.
// While something is dragged it shows quick frames: edges and textures at 480 px, with light as
// fine as its time allows (live_pace.h), of what has changed alone (live_drag.h). A frame is
// finished before the next step of the drag is taken up, and while the hand holds still one with
// finer light follows. At rest there are two quick frames of the frame's own size, then it is
// rendered pass after pass with everything made anew: that frame is the one of `dapple render` with
// the same passes and seed. A newer text stops work at rest within a few hundredths of a second.
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

#include "desk/live_drag.h"
#include "desk/live_light.h"
#include "desk/live_pace.h"
#include "glare/make_glare.h"
#include "load_set.h"
#include "render/render_frame.h"

namespace dapple {

// One state of the set.
struct LiveText {
    std::string path;  // of the set file, for what it names by relative paths
    std::string text;
    uint64_t version = 0;
    bool is_moving = false;  // a drag goes on: only small frames
    Clock since = {};        // when the text came
    double waited_s = 0;     // until older work had ended
};

struct LivePicture {
    uint64_t version = 0;  // of the text
    int width = 0, height = 0;
    double shape = 1;  // height over width of the frame at rest; quick ones are rounded to pixels
    int light_width = 0;  // px; less than the width: edges are finer than light
    int passes = 0;
    double seconds = 0;     // since the text came
    double waited_s = 0;    // of these, until older work had ended
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
        // What can hardly be meant about the set, at rest.
        std::function<void(uint64_t, const Doubts&)> on_doubts;
        // The film of the newest picture, with its clean layers. At rest it has all that is judged.
        std::function<void(const LiveText&, std::shared_ptr<const FilmRecord>)> on_film;
    };

    struct Limits {
        int width = 960;   // px, of the frame at rest
        int passes = 256;  // at rest
    };

    // The listeners are called by the frame's thread.
    LiveFrame(const Limits& limits, Listeners listeners);
    ~LiveFrame();
    LiveFrame(const LiveFrame&) = delete;
    LiveFrame& operator=(const LiveFrame&) = delete;

    void show(LiveText text);
    // Stops work until the next text: the page shows a change by itself and needs the processor.
    void pause();
    // While other work needs the processor, the frame stops after a few passes; afterwards the
    // newest text is rendered on. From any thread.
    void give_way(bool others_work);

  private:
    // A frame of one pass from the world that changes.
    struct QuickFrame {
        QuickSize size;
        bool is_anew = false;     // makes its own pilots
        bool keeps_light = true;  // so that dimmers can be mixed
        bool is_split = false;    // renders the light of the fixture that is dragged alone
    };

    void work();
    void render(const LiveText& text);
    void render_moving(const LiveText& text, int whole, double following_s);
    void render_quick(const LiveText& text, const QuickFrame& frame);
    RenderResult render_light(const QuickFrame& frame, const std::vector<bool>& dark);
    void render_others(const QuickFrame& frame);
    void refine_while_still(const LiveText& text, const QuickSize& size);
    // `first_passes`: before the frame is shown.
    void render_at_rest(const LiveText& text, int width, int first_passes);
    // Whether work on this text is to end.
    bool is_old(const LiveText& text) const;

    // Whether the text was shown at rest already, and only gave way to other work.
    bool goes_on(const LiveText& text) const;
    bool show_light(const LiveText& text);
    void show_frame(const LiveText& text,
                    const LoadedSet& set,
                    const RenderResult& result,
                    LensGlare& lens_glare,
                    bool keeps_light,
                    const KeptLight* others = nullptr);

    void send_picture(const LiveText& text,
                      const Picture& picture,
                      const RenderResult& result,
                      bool keeps_light);
    void look_for_things(const LiveText& text, const LoadedSet& set);

    std::optional<LoadedSet> quick_;  // with a world that changes
    std::shared_ptr<const Pilots> pilots_;
    LivePace pace_, split_pace_;  // of frames with all light, and with that of one fixture
    LiveDrag drag_;
    double shape_ = 1;  // height over width of the newest frame
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
