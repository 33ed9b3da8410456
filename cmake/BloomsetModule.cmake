# bloomset_module(NAME SOURCES … [PUBLIC …] [PRIVATE …] [APART]): one static library a module.
# PUBLIC and PRIVATE name what the module links; tests/law holds them against the module table of ARCHITECTURE.md.
# bloomset_test(NAME SOURCES … LINKS … [RELEASE] [SPEED] [APART]): one GoogleTest program, registered with CTest test by test.
#   APART (modules too): compiled file by file, since its files use one name for unlike private things.
#   RELEASE: also built and run on the program as shipped; SPEED: measures time, so run there only.
# bloomset_script_test(NAME [RELEASE] [SHIPPED] [PYTHON] COMMAND …): a test that is a command; PYTHON puts the interpreter before it.
#   SHIPPED: starts the program hundreds of times, so it is run on the program as shipped only.
# bloomset_fuzzer(NAME SOURCES … LINKS …): a libFuzzer program of the fuzz preset.
include(GoogleTest)

add_library(bloomset_warnings INTERFACE)
target_compile_options(bloomset_warnings INTERFACE
  -Wall -Wextra -Wpedantic -Wshadow -Wconversion -Wsign-conversion -Wnon-virtual-dtor -Wold-style-cast -Wcast-align
  -Woverloaded-virtual -Wdouble-promotion -Wformat=2 -Werror
  # Eight files compiled as one are no reason to call one file's name the shadow of another's; within a function it stays a fault.
  $<$<BOOL:${CMAKE_UNITY_BUILD}>:-Wno-shadow$<SEMICOLON>-Wshadow=local>
  # g++ 12 sees impossible overlaps in `"text" + string` once it inlines (GCC bug 105651, mended in 13).
  $<$<CXX_COMPILER_ID:GNU>:-Wno-restrict>)

# Answers must be the same bits on every x86-64 machine: no fused multiply-add, no reordering. And g++ 12.2 drops a
# term when its loop vectoriser meets a short sum over triples (seen in matter/density.cpp at -O3, held by
# tests/reference); the sums here are too short to gain from it.
add_library(bloomset_numbers INTERFACE)
target_compile_options(bloomset_numbers INTERFACE -ffp-contract=off $<$<CXX_COMPILER_ID:GNU>:-fno-tree-loop-vectorize>)

# A stream is a struct of 472 bytes. Left alone, g++ copies it by `rep movs`, whose start costs more than the copy: a sixth of a run.
set(bloomset_quick_copies "")
if(CMAKE_CXX_COMPILER_ID STREQUAL "GNU" AND CMAKE_SYSTEM_PROCESSOR MATCHES "x86_64|AMD64")
  set(bloomset_quick_copies -mmemcpy-strategy=libcall:-1:noalign -mmemset-strategy=libcall:-1:noalign)
endif()

if(BLOOMSET_SANITIZE)
  # Left out are the checks of pointers before each use: a bad one that is used ends in an address that is caught anyway, and
  # they double the time of a build.
  add_compile_options(-fsanitize=address,undefined -fno-sanitize=null,alignment,object-size,vptr,pointer-overflow,nonnull-attribute,returns-nonnull-attribute
    -fno-sanitize-recover=all -fno-omit-frame-pointer)
  add_link_options(-fsanitize=address,undefined)
endif()
find_program(BLOOMSET_MOLD mold)
if(BLOOMSET_MOLD)
  add_link_options(-fuse-ld=mold)
endif()

function(bloomset_apart target apart)
  if(apart)
    set_target_properties(${target} PROPERTIES UNITY_BUILD OFF)
  endif()
endfunction()

function(bloomset_module name)
  cmake_parse_arguments(arg "APART" "" "SOURCES;PUBLIC;PRIVATE" ${ARGN})
  add_library(${name} STATIC ${arg_SOURCES})
  bloomset_apart(${name} ${arg_APART})
  add_library(bloomset::${name} ALIAS ${name})
  target_include_directories(${name} PUBLIC "${CMAKE_SOURCE_DIR}/src")
  target_link_libraries(${name} PUBLIC ${arg_PUBLIC} bloomset_numbers PRIVATE ${arg_PRIVATE} bloomset_warnings)
endfunction()

# Tests of the shipped program are built on demand, so that building it does not wait for them.
if(NOT TARGET release_tests)
  add_custom_target(release_tests)
endif()

function(bloomset_test name)
  cmake_parse_arguments(arg "RELEASE;SPEED;APART" "" "SOURCES;LINKS" ${ARGN})
  if(BLOOMSET_TESTS STREQUAL "release" AND NOT arg_RELEASE AND NOT arg_SPEED)
    return()
  endif()
  if(arg_SPEED AND BLOOMSET_SANITIZE)
    return()
  endif()
  set(labels "")
  if(arg_RELEASE OR arg_SPEED)
    list(APPEND labels release)
  endif()
  if(arg_SPEED)
    list(APPEND labels speed)
  endif()
  add_executable(${name} ${arg_SOURCES})
  bloomset_apart(${name} ${arg_APART})
  if(BLOOMSET_TESTS STREQUAL "release")
    set_target_properties(${name} PROPERTIES EXCLUDE_FROM_ALL ON)
    add_dependencies(release_tests ${name})
  endif()
  target_include_directories(${name} PRIVATE "${CMAKE_SOURCE_DIR}/tests")
  target_compile_definitions(${name} PRIVATE BLOOMSET_SOURCE_DIR="${CMAKE_SOURCE_DIR}" BLOOMSET_BINARY_DIR="${CMAKE_BINARY_DIR}")
  target_link_libraries(${name} PRIVATE ${arg_LINKS} GTest::gtest_main bloomset_warnings)
  # One seed for all property tests under CTest, so that a change is never red by chance; the program run by itself draws anew.
  set(properties ENVIRONMENT "RC_PARAMS=seed=1")
  if(labels)
    list(APPEND properties LABELS "${labels}")
  endif()
  gtest_discover_tests(${name} DISCOVERY_MODE PRE_TEST PROPERTIES ${properties})
endfunction()

# Debian's own interpreter before any other: it is the one that sees Debian's python3-… packages.
find_program(BLOOMSET_PYTHON NAMES python3 PATHS /usr/bin NO_DEFAULT_PATH)
find_program(BLOOMSET_PYTHON NAMES python3)

function(bloomset_script_test name)
  cmake_parse_arguments(arg "RELEASE;SHIPPED;PYTHON" "" "COMMAND" ${ARGN})
  if(arg_SHIPPED AND BLOOMSET_SANITIZE)
    return()
  endif()
  if(BLOOMSET_TESTS STREQUAL "release" AND NOT arg_RELEASE AND NOT arg_SHIPPED)
    return()
  endif()
  if(arg_PYTHON)
    if(NOT BLOOMSET_PYTHON)
      message(FATAL_ERROR "python3 is not there, and the test ${name} needs it")
    endif()
    list(PREPEND arg_COMMAND "${BLOOMSET_PYTHON}" -B)
  endif()
  add_test(NAME ${name} COMMAND ${arg_COMMAND} WORKING_DIRECTORY "${CMAKE_SOURCE_DIR}")
  if(arg_RELEASE OR arg_SHIPPED)
    set_tests_properties(${name} PROPERTIES LABELS release)
  endif()
endfunction()

function(bloomset_fuzzer name)
  cmake_parse_arguments(arg "" "" "SOURCES;LINKS" ${ARGN})
  add_executable(${name} ${arg_SOURCES})
  target_compile_options(${name} PRIVATE -fsanitize=fuzzer)
  target_link_options(${name} PRIVATE -fsanitize=fuzzer)
  target_link_libraries(${name} PRIVATE ${arg_LINKS} bloomset_warnings)
endfunction()
