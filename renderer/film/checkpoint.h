// The state of a render as bytes, from which a later run continues.
//
// Layout: the line "dapple film 7", the fingerprint of what was rendered, then for the frame and
// for the meters each array as its length and its values, in the order of FilmState and in this
// machine's byte order; the passes' numbers are such an array too. A checkpoint is only valid on a
// machine with that byte order. The last eight bytes are a checksum of all others.
#pragma once

#include <cstddef>
#include <cstdint>
#include <functional>
#include <iosfwd>
#include <variant>

#include "film/film.h"

namespace dapple {

// Takes the next bytes of the checkpoint.
using ByteSink = std::function<void(const void* data, size_t size)>;

struct Checkpoint {
    FilmState frame;
    FilmState meters;
};

// What a checkpoint says of itself, without its films.
struct CheckpointHead {
    uint64_t fingerprint = 0;
    PassRanges passes;
};

// What was found in place of a checkpoint.
enum class NoCheckpoint {
    kOther,    // one of another set, of other options or of another version of the program
    kDamaged,  // not whole, or changed
};

void write_checkpoint(const FilmState& frame,
                      const FilmState& meters,
                      uint64_t fingerprint,
                      const ByteSink& sink);

// Reads the first bytes alone, so damage to the rest is not found.
std::variant<CheckpointHead, NoCheckpoint> read_checkpoint_head(std::istream& in);
std::variant<Checkpoint, NoCheckpoint> read_checkpoint(std::istream& in, uint64_t fingerprint);

}  // namespace dapple
