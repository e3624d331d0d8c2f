# SPDX-FileCopyrightText: 2026 The Airmuster developers
# SPDX-License-Identifier: GPL-3.0-or-later

# airmuster_precompile(TARGET PUBLIC|PRIVATE HEADERS…)
# With AIRMUSTER_PCH the target's sources are compiled behind these headers, compiled once; PUBLIC
# ones serve what links it too, if it precompiles any. A source includes all the same what it uses.
function(airmuster_precompile target scope)
    if(AIRMUSTER_PCH AND ARGN)
        list(TRANSFORM ARGN REPLACE "(.+)" "<\\1>" OUTPUT_VARIABLE headers)
        target_precompile_headers(${target} ${scope} ${headers})
        set_target_properties(${target} PROPERTIES DISABLE_PRECOMPILE_HEADERS OFF)
    endif()
endfunction()

# airmuster_layer(NAME SOURCES … USES LAYERS… [LINKS LIBRARIES…] [SHARED HEADERS…] [OWN HEADERS…])
# A layer sees its own headers, as "NAME/file.h", and those of the layers it uses, and no others:
# each has an include root of its own that holds one link to its folder. SHARED are headers that
# many sources of it and of the layers above include, OWN such that only its own do: worth to be
# compiled once (AIRMUSTER_PCH).
function(airmuster_layer name)
    cmake_parse_arguments(LAYER "" "" "SOURCES;USES;LINKS;SHARED;OWN" ${ARGN})
    set(root "${CMAKE_BINARY_DIR}/include/${name}")
    file(MAKE_DIRECTORY "${root}")
    file(CREATE_LINK "${CMAKE_CURRENT_SOURCE_DIR}" "${root}/${name}" SYMBOLIC)
    add_library(airmuster_${name} STATIC ${LAYER_SOURCES})
    target_include_directories(airmuster_${name} PUBLIC "${root}")
    foreach(used ${LAYER_USES})
        target_link_libraries(airmuster_${name} PUBLIC airmuster_${used})
    endforeach()
    target_link_libraries(airmuster_${name} PUBLIC ${LAYER_LINKS})
    if(name IN_LIST AIRMUSTER_PLAIN)
        target_compile_options(airmuster_${name} PRIVATE -O0)
    endif()
    airmuster_precompile(airmuster_${name} PUBLIC ${LAYER_SHARED})
    airmuster_precompile(airmuster_${name} PRIVATE ${LAYER_OWN})
endfunction()
