// The state of a render as bytes, from which a later run continues.
//
// Layout: the line "dapple film 5", the fingerprint of what was rendered, then for the frame and
// for the meters each array as its length and its values, in the order of FilmState and in this
// machine's byte order. A checkpoint is only valid on a machine with that byte order.
#pragma once

#include <cstddef>
#include <cstdint>
#include <functional>
#include <iosfwd>
#include <optional>

#include "film/film.h"

namespace dapple {

// Takes the next bytes of the checkpoint.
using ByteSink = std::function<void(const void* data, size_t size)>;

struct Checkpoint {
    FilmState frame;
    FilmState meters;
};

void write_checkpoint(const FilmState& frame,
                      const FilmState& meters,
                      uint64_t fingerprint,
                      const ByteSink& sink);

// Returns nothing if the bytes are not a whole checkpoint with this fingerprint.
std::optional<Checkpoint> read_checkpoint(std::istream& in, uint64_t fingerprint);

}  // namespace dapple
