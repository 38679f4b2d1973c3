# Flags for all of our code. Foreign headers come in as SYSTEM, so warnings are ours alone.
set(CMAKE_CXX_STANDARD 23)
set(CMAKE_CXX_STANDARD_REQUIRED ON)
set(CMAKE_CXX_EXTENSIONS OFF)

add_library(lodeway_flags INTERFACE)
target_compile_options(lodeway_flags INTERFACE
  -Wall -Wextra -Wpedantic -Wshadow -Wconversion -Wdouble-promotion -Wold-style-cast
  -ffp-contract=off)  # the same sums everywhere, fused multiply-add or not
if(CMAKE_CXX_COMPILER_ID STREQUAL "GNU")  # g++ 12 at -O3 sees ghosts inside std::string
  target_compile_options(lodeway_flags INTERFACE -Wno-maybe-uninitialized -Wno-restrict -Wno-array-bounds
                         -Wno-stringop-overflow -Wno-stringop-overread
                         -fpch-preprocess)  # so that the cache takes precompiled headers
else()  # clang blames std::stable_sort of libstdc++ 12 for what it calls inside, and its -Wconversion
        # counts signs, which g++'s does not
  target_compile_options(lodeway_flags INTERFACE -Wno-deprecated-declarations -Wno-sign-conversion)
endif()
if(LODEWAY_WARNINGS_AS_ERRORS)
  target_compile_options(lodeway_flags INTERFACE -Werror)
endif()
if(LODEWAY_STL_ASSERTS)
  target_compile_definitions(lodeway_flags INTERFACE _GLIBCXX_ASSERTIONS)
endif()
if(LODEWAY_SANITIZE)
  target_compile_options(lodeway_flags INTERFACE
    -fsanitize=${LODEWAY_SANITIZE} -fno-sanitize-recover=all -fno-omit-frame-pointer)
  target_link_options(lodeway_flags INTERFACE -fsanitize=${LODEWAY_SANITIZE})
endif()
if(LODEWAY_FUZZ)
  target_compile_options(lodeway_flags INTERFACE -fsanitize=fuzzer-no-link
    -fsanitize-ignorelist=${CMAKE_SOURCE_DIR}/cmake/foreign_undefined.txt)
endif()
if(LODEWAY_TIDY)
  set(CMAKE_CXX_CLANG_TIDY clang-tidy-19 --quiet)
endif()
find_program(CCACHE ccache)
if(CCACHE AND NOT CMAKE_CXX_COMPILER_LAUNCHER)
  set(CMAKE_CXX_COMPILER_LAUNCHER env
      CCACHE_SLOPPINESS=pch_defines,time_macros,include_file_mtime,include_file_ctime "${CCACHE}")
endif()
