# SPDX-FileCopyrightText: 2026 The Airmuster developers
# SPDX-License-Identifier: GPL-3.0-or-later

# airmuster_embed(TARGET NAMESPACE FILES…)
# Builds text files into a target, so that the installed program needs none of them beside it.
# Writes TARGET_embedded.h, on the target's own include path, with one std::string_view a file in
# NAMESPACE: "data/demo/kestrel_bay.toml" becomes demo_kestrel_bay (folder and name without ending).
# A text must be under 64 KiB and must not hold )airmuster".
function(airmuster_embed target namespace)
    set(folder "${CMAKE_CURRENT_BINARY_DIR}/embedded")
    set(declarations "")
    set(definitions "")
    foreach(file ${ARGN})
        get_filename_component(file "${file}" ABSOLUTE)
        get_filename_component(name "${file}" NAME_WE)
        get_filename_component(parent "${file}" DIRECTORY)
        get_filename_component(parent "${parent}" NAME)
        string(MAKE_C_IDENTIFIER "${parent}_${name}" name)
        file(READ "${file}" content)
        string(APPEND declarations "extern const std::string_view ${name};\n")
        string(APPEND definitions
            "const std::string_view ${name} = R\"airmuster(${content})airmuster\";\n")
        set_property(DIRECTORY APPEND PROPERTY CMAKE_CONFIGURE_DEPENDS "${file}")
    endforeach()
    set(header "${folder}/${target}_embedded.h")
    set(source "${folder}/${target}_embedded.cpp")
    file(WRITE "${header}.new" "#pragma once\n#include <string_view>\n"
        "namespace ${namespace} {\n${declarations}}\n")
    file(WRITE "${source}.new" "#include \"${target}_embedded.h\"\n"
        "namespace ${namespace} {\n${definitions}}\n")
    file(COPY_FILE "${header}.new" "${header}" ONLY_IF_DIFFERENT)
    file(COPY_FILE "${source}.new" "${source}" ONLY_IF_DIFFERENT)
    target_sources(${target} PRIVATE "${source}")
    target_include_directories(${target} PUBLIC "${folder}")
endfunction()
