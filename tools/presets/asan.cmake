# Addresses, leaks and undefined behaviour; assertions on.
# Embree, oneTBB and OpenImageIO come from the system and are not instrumented.
set(CMAKE_BUILD_TYPE RelWithDebInfo CACHE STRING "" FORCE)
# Without NDEBUG, which CMake would add; -O1 halves the time of the build.
set(CMAKE_CXX_FLAGS_RELWITHDEBINFO "-O1 -g1" CACHE STRING "" FORCE)
set(DAPPLE_SANITIZE address,undefined CACHE STRING "" FORCE)
