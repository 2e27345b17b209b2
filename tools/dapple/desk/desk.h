// The desk itself: the set's text, its frame and the news of both. The server passes requests on to
// it, from any thread.
#pragma once

#include <mutex>
#include <string>

#include "desk/desk_seek.h"
#include "desk/event_board.h"
#include "desk/live_frame.h"
#include "desk/set_history.h"

namespace dapple {

class Desk {
  public:
    // Throws FileError if the set file cannot be read.
    Desk(const std::string& set, const LiveFrame::Limits& limits);
    ~Desk();

    // Does what the page asks for, a JSON object such as
    //   {"do": "change", "changes": [{"address": "camera.iso", "value": "800"}],
    //    "gesture": "7", "moving": true}
    //   {"do": "undo"}  also redo, save, save_over, reload, take_left_over, drop_left_over
    //   {"do": "text", "text": "..."}
    // Returns "" or one line that says what is wrong.
    std::string act(const std::string& request);

    // The latest picture, as PNG; "" before the first.
    std::string picture() const;
    std::string seek_picture(int number) const { return seek_.picture(number); }
    EventBoard& news() { return news_; }
    // Looks whether somebody else has changed the file, and tells.
    void look_outside();

  private:
    std::string change(const std::string& json);
    void post_set();
    void tell_set(bool is_moving);

    mutable std::mutex mutex_;  // of all but the news
    SetHistory history_;
    bool told_outside_ = false;
    std::string picture_;
    uint64_t pictures_ = 0;
    EventBoard news_;
    DeskSeek seek_{news_, [this](bool is_running) { frame_.give_way(is_running); }};
    LiveFrame frame_;  // last: its thread uses the others
};

}  // namespace dapple
