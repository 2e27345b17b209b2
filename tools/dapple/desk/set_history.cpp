#include "desk/set_history.h"

#include <filesystem>

#include "base/problems.h"
#include "output/safe_file.h"
#include "set/merge_texts.h"
#include "set/set_outline.h"
#include "set/toml_text.h"

namespace dapple {

namespace {

constexpr double kBesideEvery = 0.5;  // s, while something is dragged

}  // namespace

SetHistory::SetHistory(std::string path) : path_(std::move(path)), saved_(read_toml_text(path_)) {
    steps_.push_back({*saved_, ""});
    find_left_over();
}

SetHistory::SetHistory(std::string path, std::string text) : path_(std::move(path)) {
    steps_.push_back({std::move(text), ""});
    find_left_over();
}

void SetHistory::find_left_over() {
    std::error_code error;
    if (!std::filesystem::exists(side_path(), error)) return;
    std::string text = read_toml_text(side_path());
    if (text != this->text()) left_over_ = std::move(text);
}

void SetHistory::put(std::string text, const std::string& gesture, bool goes_on) {
    if (text == this->text() && goes_on) return;
    if (text == this->text()) return keep_beside();
    const bool is_same_step = !gesture.empty() && at_ > 0 && steps_[at_].gesture == gesture;
    if (!is_same_step) ++at_;
    steps_.resize(at_ + 1);
    steps_[at_] = {std::move(text), gesture};
    ++version_;
    // The disk can take longer than a step of a drag.
    if (!goes_on || kept_beside_.seconds() > kBesideEvery) keep_beside();
}

void SetHistory::begin_with(std::string text) {
    steps_ = {{std::move(text), ""}};
    at_ = 0;
    ++version_;
    keep_beside();
}

bool SetHistory::undo() {
    if (!can_undo()) return false;
    --at_;
    ++version_;
    keep_beside();
    return true;
}

bool SetHistory::redo() {
    if (!can_redo()) return false;
    ++at_;
    steps_[at_].gesture.clear();  // a drag that was undone does not go on
    ++version_;
    keep_beside();
    return true;
}

// Work goes on where nothing can be written.
void SetHistory::keep_beside() {
    kept_beside_ = Clock();
    if (left_over_) return;  // not over what an earlier desk has left
    try {
        write_beside();
        not_safe_.clear();
    } catch (const FileError& error) {
        not_safe_ = error.what();
    }
}

bool SetHistory::try_to_keep() {
    const std::string before = not_safe_;
    if (!before.empty()) keep_beside();
    return not_safe_ != before;
}

void SetHistory::write_beside() {
    std::error_code error;
    if (is_saved()) {
        std::filesystem::remove(side_path(), error);
    } else {
        write_text(side_path(), text());
    }
}

std::optional<std::string> SetHistory::changed_outside() const {
    if (!saved_) return std::nullopt;
    try {
        std::string now = read_toml_text(path_);
        if (now != *saved_) return now;
    } catch (const FileError&) {
        return std::nullopt;  // moved away: saving writes it again
    }
    return std::nullopt;
}

void SetHistory::save(bool over) {
    if (!over && changed_outside()) {
        throw FileError(path_, "has been changed by another program; nothing was written");
    }
    write_text(path_, text());
    saved_ = text();
    keep_beside();
}

void SetHistory::save_as(const std::string& path) {
    std::error_code error;
    if (std::filesystem::exists(path, error)) {
        throw FileError(path, "is there already; choose another name");
    }
    write_text(path, text());
    if (!left_over_) std::filesystem::remove(side_path(), error);
    path_ = path;
    saved_ = text();
    not_safe_.clear();
    left_over_.reset();
}

bool SetHistory::merge_outside() {
    const std::optional<std::string> theirs = changed_outside();
    if (!theirs) return false;
    try {
        if (outline_of(*theirs).empty()) return false;  // perhaps half written
    } catch (const std::exception&) {
        return false;
    }
    std::optional<std::string> both = merge_texts(*saved_, text(), *theirs);
    if (!both) return false;
    saved_ = *theirs;
    put(std::move(*both), "");
    keep_beside();
    return true;
}

void SetHistory::reload() {
    saved_ = read_toml_text(path_);
    put(*saved_, "");
}

void SetHistory::take_left_over() {
    if (!left_over_) return;
    std::string text = std::move(*left_over_);
    left_over_.reset();
    if (!has_file() && is_untouched()) {
        begin_with(std::move(text));
    } else {
        put(std::move(text), "");
    }
}

void SetHistory::drop_left_over() {
    left_over_.reset();
    keep_beside();
    std::error_code error;
    if (is_saved()) std::filesystem::remove(side_path(), error);
}

}  // namespace dapple
