// The desk itself: the set's text, its frame and the news of both. The server passes requests on to
// it, from any thread.
#pragma once

#include <atomic>
#include <mutex>
#include <nlohmann/json_fwd.hpp>
#include <optional>
#include <string>

#include "desk/desk_film.h"
#include "desk/desk_seek.h"
#include "desk/event_board.h"
#include "desk/live_frame.h"
#include "desk/set_history.h"

namespace dapple {

class Desk {
  public:
    // `set`: the set file; "": a small room to begin with, which is no file yet. Throws FileError
    // if the set file cannot be read.
    Desk(const std::string& set, const LiveFrame::Limits& limits);
    ~Desk();

    // Does what the page asks for, a JSON object such as
    //   {"do": "change", "changes": [{"address": "camera.iso", "value": "800"}],
    //    "gesture": "7", "moving": true}     with "shown": true the page shows it by itself
    //   {"do": "undo"}  also redo, save, save_over, reload, take_left_over, drop_left_over, keep,
    //                 merge_seen
    //   {"do": "text", "text": "..."}
    //   {"do": "save_as", "name": "dance hall", "folder": "/home/me/sets"}
    //   {"do": "open_version", "name": "2024-11-30 17-05-33"}
    //   {"do": "new", "title": "...", "room": [5, 7, 3], "distance": 3, "lens": 50, "figure": 1.7,
    //    "seated": true, "walls": 0.4}
    // Returns "" or one line that says what is wrong.
    std::string act(const std::string& request);

    // The latest picture, as PNG; "" before the first.
    std::string picture() const;
    std::string seek_picture(int number) const { return seek_.picture(number); }
    EventBoard& news() { return news_; }
    const DeskFilm& film() const { return film_; }
    // Of the set's text.
    uint64_t version() const;
    // Looks whether somebody else has changed the file, and tells.
    void look_outside();

  private:
    std::string change(const nlohmann::ordered_json& request);
    // False: there is no such thing to do.
    bool do_step(const std::string& what, const nlohmann::ordered_json& request);
    bool do_file(const std::string& what, const nlohmann::ordered_json& request);
    void save_as(const nlohmann::ordered_json& request);
    LiveFrame::Listeners listeners();
    void post_set();
    void post_versions();
    void tell_set(bool is_moving);

    mutable std::mutex mutex_;  // of all but the news
    SetHistory history_;
    bool told_outside_ = false;
    std::atomic<bool> is_wrong_ = false;  // the newest text that was read
    Clock told_set_;                      // since the page was told of the set
    std::optional<uint64_t> merged_;  // the version that changes by another program made; told once
    std::string picture_;
    uint64_t pictures_ = 0;
    EventBoard news_;
    DeskFilm film_;
    DeskSeek seek_{news_, [this](bool is_running) { frame_.give_way(is_running); }};
    LiveFrame frame_;  // last: its thread uses the others
};

}  // namespace dapple
