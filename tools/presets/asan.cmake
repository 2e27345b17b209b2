# Addresses, leaks and undefined behaviour; assertions on.
# Embree, oneTBB and OpenImageIO come from the system and are not instrumented.
set(CMAKE_BUILD_TYPE RelWithDebInfo CACHE STRING "" FORCE)
set(CMAKE_CXX_FLAGS -UNDEBUG CACHE STRING "" FORCE)
set(DAPPLE_SANITIZE address,undefined CACHE STRING "" FORCE)
