// The text of a set file on the desk, with every step that can be undone.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "render/pass_limits.h"

namespace dapple {

class SetHistory {
  public:
    // Reads the file. Throws FileError.
    explicit SetHistory(std::string path);
    // A set that is no file yet. `path` is where its side file goes until it has a name.
    SetHistory(std::string path, std::string text);

    const std::string& path() const { return path_; }
    const std::string& text() const { return steps_[at_].text; }
    // Counts all changes of the text, undo and redo too.
    uint64_t version() const { return version_; }

    // Puts a new text. Texts of one gesture, such as a drag, are one step; "" is a gesture of its
    // own. `goes_on`: more texts of the gesture follow at once; the side file may then lag a
    // little.
    void put(std::string text, const std::string& gesture, bool goes_on = false);
    // Puts a text in the place of one that nobody has made, such as the first room of a set that is
    // no file: undo does not lead back to that.
    void begin_with(std::string text);
    bool undo();
    bool redo();
    bool can_undo() const { return at_ > 0; }
    bool can_redo() const { return at_ + 1 < steps_.size(); }

    // Why the text is neither in its file nor beside it, as on a full disk; "": it is safe.
    const std::string& not_safe() const { return not_safe_; }
    // Tries once more. Returns whether not_safe() has changed.
    bool try_to_keep();

    // Whether the file holds this text.
    bool is_saved() const { return saved_ && text() == *saved_; }
    bool has_file() const { return saved_.has_value(); }
    // Nothing was done to it.
    bool is_untouched() const { return version_ == 1; }
    // Writes the file, whole or not at all, and takes away the side file. Throws FileError; also if
    // somebody else has changed the file, unless `over` is true.
    void save(bool over);
    // The same as another file from now on. Throws FileError, also if there is one at `path`.
    void save_as(const std::string& path);
    // The text of the file, if somebody else has changed it.
    std::optional<std::string> changed_outside() const;
    // Takes in what somebody else has changed. False: nothing, or lines that were changed here too,
    // or a text that is not TOML.
    bool merge_outside();
    // Begins from the file as it is now; what was on the desk can be undone.
    void reload();

    // The unsaved text of an earlier desk that ended without saving.
    std::optional<std::string> left_over() const { return left_over_; }
    void take_left_over();
    void drop_left_over();

  private:
    struct Step {
        std::string text;
        std::string gesture;
    };

    std::string side_path() const { return path_ + ".unsaved"; }
    void find_left_over();
    void keep_beside();
    void write_beside();

    std::string path_;
    std::vector<Step> steps_;
    size_t at_ = 0;
    uint64_t version_ = 1;
    std::optional<std::string> saved_;  // what the file holds; nothing: there is none yet
    std::optional<std::string> left_over_;
    std::string not_safe_;
    Clock kept_beside_;  // since the side file was written
};

}  // namespace dapple
