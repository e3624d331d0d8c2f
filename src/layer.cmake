# SPDX-FileCopyrightText: 2026 The Airmuster developers
# SPDX-License-Identifier: GPL-3.0-or-later

# airmuster_layer(NAME SOURCES … USES LAYERS… [LINKS LIBRARIES…])
# A layer sees its own headers, as "NAME/file.h", and those of the layers it uses, and no others:
# each has an include root of its own that holds one link to its folder.
function(airmuster_layer name)
    cmake_parse_arguments(LAYER "" "" "SOURCES;USES;LINKS" ${ARGN})
    set(root "${CMAKE_BINARY_DIR}/include/${name}")
    file(MAKE_DIRECTORY "${root}")
    file(CREATE_LINK "${CMAKE_CURRENT_SOURCE_DIR}" "${root}/${name}" SYMBOLIC)
    add_library(airmuster_${name} STATIC ${LAYER_SOURCES})
    target_include_directories(airmuster_${name} PUBLIC "${root}")
    foreach(used ${LAYER_USES})
        target_link_libraries(airmuster_${name} PUBLIC airmuster_${used})
    endforeach()
    target_link_libraries(airmuster_${name} PUBLIC ${LAYER_LINKS})
endfunction()
