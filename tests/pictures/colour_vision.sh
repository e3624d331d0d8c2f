#!/bin/sh
# SPDX-FileCopyrightText: 2026 The Airmuster developers
# SPDX-License-Identifier: GPL-3.0-or-later
#
# sh tests/pictures/colour_vision.sh PICTURE… FOLDER: each picture as it is seen with one kind of
# cone missing, and as a grey print. The matrices are those of severity 1.0 in G. M. Machado,
# M. M. Oliveira, L. A. F. Fernandes: A Physiologically-based Model for Simulation of Color Vision
# Deficiency, IEEE Transactions on Visualization and Computer Graphics 15 (6), 2009; they apply to
# linear light.
set -eu

protanopia='0.152286 1.052583 -0.204868 0.114503 0.786281 0.099216 -0.003882 -0.048116 1.051998'
deuteranopia='0.367322 0.860646 -0.227968 0.280085 0.672501 0.047413 -0.011820 0.042940 0.968881'
tritanopia='1.255528 -0.076749 -0.178779 -0.078411 0.930809 0.147602 0.004733 0.691367 0.303900'

for last; do :; done
folder=$last
mkdir -p "$folder"

seen() {
    convert "$picture" -colorspace RGB -color-matrix "$2" -colorspace sRGB "$folder/$name-$1.png"
}

while [ $# -gt 1 ]; do
    picture=$1
    name=$(basename "$picture" .png)
    seen protanopia "$protanopia"
    seen deuteranopia "$deuteranopia"
    seen tritanopia "$tritanopia"
    convert "$picture" -colorspace Gray "$folder/$name-grey.png"
    shift
done
