#include "output/safe_file.h"

#include <doctest/doctest.h>

#include "base/problems.h"
#include "output/output_fixtures.h"

using namespace dapple;

TEST_CASE("a file is written whole, in folders that are made for it") {
    const TemporaryFolder folder;
    write_text(folder / "a/b/note.txt", "hello");
    CHECK(get_file(folder / "a/b/note.txt") == "hello");
    CHECK_FALSE(std::filesystem::exists(folder / "a/b/note.txt.partial"));
}

TEST_CASE("an older file stays until the new one is committed") {
    const TemporaryFolder folder;
    put_file(folder / "note.txt", "old");
    {
        SafeFile file(folder / "note.txt");
        file.write_at("new", 3, 0);
        CHECK(get_file(folder / "note.txt") == "old");
    }
    CHECK(get_file(folder / "note.txt") == "old");
    CHECK(folder.entries() == 1);  // no partial file left
    write_text(folder / "note.txt", "new");
    CHECK(get_file(folder / "note.txt") == "new");
}

TEST_CASE("a full disk is reported in one line, and the older file stays") {
    const TemporaryFolder folder;
    put_file(folder / "note.txt", "old");
    const std::string large(100000, 'x');
    std::string message;
    {
        const FileSizeLimit limit(4096);
        message = message_of([&] { write_text(folder / "note.txt", large); });
    }
    CHECK(message == (folder / "note.txt") + ": cannot be written: File too large");
    CHECK(get_file(folder / "note.txt") == "old");
    CHECK(folder.entries() == 1);
}

TEST_CASE("a path that is a folder, or goes through a file, is refused before the work") {
    const TemporaryFolder folder;
    put_file(folder / "file", "old");
    CHECK(message_of([&] { SafeFile f(folder.path()); }) ==
          folder.path() + ": cannot be written: Is a directory");
    CHECK(message_of([&] { SafeFile f(folder / "file/picture.exr"); }) ==
          (folder / "file") + ": cannot be made a folder: Not a directory");
    CHECK(message_of([&] { check_writable_folder(folder / "file"); }) ==
          (folder / "file") + ": cannot be made a folder: Not a directory");
    CHECK(message_of([&] { check_writable_folder(folder / "file/out"); }) ==
          (folder / "file/out") + ": cannot be made a folder: Not a directory");
    CHECK_THROWS_AS(check_writable_folder(folder / "file"), FileError);
    CHECK(get_file(folder / "file") == "old");
}

TEST_CASE("a folder that cannot hold files is found out by trying") {
    // /proc is a folder in which nobody, root included, can make files.
    if (!std::filesystem::is_directory("/proc/self")) return;
    CHECK_THROWS_AS(check_writable_folder("/proc/self"), FileError);
    CHECK_THROWS_AS(check_writable_folder("/proc/self/out"), FileError);
    CHECK_THROWS_AS(write_text("/proc/self/note.txt", "x"), FileError);
}

TEST_CASE("checking a folder makes it and leaves it empty") {
    const TemporaryFolder folder;
    check_writable_folder(folder / "new/out");
    CHECK(std::filesystem::is_empty(folder / "new/out"));
}
