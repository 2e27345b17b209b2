// One run of the program at a time may write into a folder.
#pragma once

#include <string>

namespace dapple {

// Locks the folder, which must exist, until the end of its life or of the process, however that
// ends. Throws FileError that says who holds the lock. A file system that cannot lock is not
// locked.
class FolderLock {
  public:
    explicit FolderLock(const std::string& folder);
    ~FolderLock();
    FolderLock(const FolderLock&) = delete;
    FolderLock& operator=(const FolderLock&) = delete;

  private:
    std::string holder_path_;
    int descriptor_ = -1;
};

// Who holds the folder's lock, "process 4711 on studio, since …"; empty if nobody does.
std::string holder_of_folder(const std::string& folder);

}  // namespace dapple
