// Copies of a set file, one for each time that it was saved or kept, in a folder beside it. Nothing
// takes them out again: that is the user's business.
#pragma once

#include <string>
#include <vector>

namespace dapple {

class KeptVersions {
  public:
    // `set`: the set file's path.
    explicit KeptVersions(const std::string& set);

    // Does nothing if the newest version is the same. Throws FileError.
    void keep(const std::string& text) const;
    // Names, the newest first: "2024-11-30 17-05-33".
    std::vector<std::string> names() const;
    // The text of a version. Throws FileError if there is none of that name.
    std::string text_of(const std::string& name) const;
    // They are those of another set file from now on, if that has none.
    void move_to(const std::string& set) const;

  private:
    std::string path_of(const std::string& name) const;

    std::string folder_;
};

}  // namespace dapple
