# SPDX-FileCopyrightText: 2026 The Airmuster developers
# SPDX-License-Identifier: GPL-3.0-or-later
#
# Asks a test program for its tests and writes the CTest file that runs each of them on its own.
# A test's labels are its folder and those of LABELS that it bears as tags. It must bear one.
# cmake -D PROGRAM=… -D FOLDER=… -D LABELS=unit,property,… -D KEPT=… -D SECONDS=… -D OUTPUT=…
#     -P discover.cmake
# KEPT is a folder in which the tests keep what is the same until the program is built anew, SECONDS
# how long a test may take.
cmake_policy(VERSION 3.25)

function(list_tests specification result)
    # The status is the number of tests, so only what is no number tells of trouble.
    execute_process(COMMAND "${PROGRAM}" ${specification} --list-test-names-only
        OUTPUT_VARIABLE output RESULT_VARIABLE status)
    if(NOT status MATCHES "^[0-9]+$")
        message(FATAL_ERROR "${PROGRAM} cannot list its tests: ${status}\n${output}")
    endif()
    string(REGEX REPLACE "[][;]" "" plain "${output}")
    if(NOT plain STREQUAL output)
        message(FATAL_ERROR "${FOLDER}: a test's name holds a bracket or semicolon:\n${output}")
    endif()
    string(REGEX REPLACE "\n+$" "" output "${output}")
    string(REPLACE "\n" ";" output "${output}")
    set(${result} "${output}" PARENT_SCOPE)
endfunction()

file(REMOVE_RECURSE "${KEPT}")
file(MAKE_DIRECTORY "${KEPT}")

list_tests("" names)
set(names_unlabelled ${names})
string(REPLACE "," ";" LABELS "${LABELS}")
foreach(label IN LISTS LABELS)
    list_tests("[${label}]" names_${label})
    list(REMOVE_ITEM names_unlabelled "" ${names_${label}})
endforeach()
if(NOT names)
    message(FATAL_ERROR "${PROGRAM} holds no tests.")
endif()
if(names_unlabelled)
    message(FATAL_ERROR "${FOLDER}: these tests bear none of the tags ${LABELS}:\n"
        "${names_unlabelled}")
endif()

set(environment TZ=UTC LC_ALL=C.UTF-8 "AIRMUSTER_KEPT_LOGBOOKS=${KEPT}"
    "XDG_STATE_HOME=${KEPT}/state")
set(script "")
foreach(name IN LISTS names)
    set(labels "${FOLDER}")
    foreach(label IN LISTS LABELS)
        if("${name}" IN_LIST names_${label})
            string(APPEND labels ";${label}")
        endif()
    endforeach()
    string(REPLACE "," "\\," pattern "${name}")
    string(APPEND script
        "add_test([==[${FOLDER}: ${name}]==] [==[${PROGRAM}]==] [==[${pattern}]==] -w NoTests)\n"
        "set_tests_properties([==[${FOLDER}: ${name}]==] PROPERTIES LABELS [==[${labels}]==]\n"
        "    TIMEOUT ${SECONDS}\n"
        "    ENVIRONMENT [==[${environment}]==])\n")
endforeach()
file(WRITE "${OUTPUT}" "${script}")
