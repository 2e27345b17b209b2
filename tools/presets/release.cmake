# What is handed over: optimised for this machine.
set(CMAKE_BUILD_TYPE Release CACHE STRING "" FORCE)
