// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Restoring; see restore.h.
#include "store/restore.h"

#include "store/connection.h"
#include "store/operating_system.h"
#include "store/unfinished_file.h"

#include <system_error>
#include <utility>

namespace store {

namespace {

using Access = OpenOptions::Access;
using Code = Trouble::Code;
using Path = std::filesystem::path;

Trouble troubleAt(const Path& path, Code code, std::string text = {}) {
    Trouble trouble;
    trouble.code = code;
    trouble.path = path;
    trouble.text = std::move(text);
    return trouble;
}

Path with(Path path, const std::string& ending) {
    path += ending;
    return path;
}

// A whole copy under the name of the file that is not finished, with its new station.
tl::expected<Heads, Trouble> prepare(const Path& backup, const UnfinishedFile& file,
                                     const RestoreTo& to, const Writing& writing) {
    const auto source = Logbook::open(backup, {Access::Read, true});
    if (!source) {
        return tl::unexpected<Trouble>(source.error());
    }
    const auto copied = source->backup(file.path());
    if (!copied) {
        return tl::unexpected<Trouble>(copied.error());
    }
    auto copy = Logbook::open(file.path(), {Access::Write, to.trustLocks});
    if (!copy) {
        return tl::unexpected<Trouble>(copy.error());
    }
    if (const auto named = copy->setStation(to.station, writing); !named) {
        return tl::unexpected<Trouble>(named.error());
    }
    return copied->heads;
}

// "ward.logbook.before-20260302T140000Z"
Path asideName(const Path& path, logbook::Instant at) {
    std::string time = toText(logbook::Instant{at.ms / 1000 * 1000});
    std::erase_if(time, [](char letter) { return letter == '-' || letter == ':'; });
    return with(path, ".before-" + time);
}

// What is left of a write that was cut off goes with its file: without it that is not whole, and
// beside another file it would be taken for that one's. So it is there before its file is.
std::error_code moveWithJournal(const Path& from, const Path& to) {
    const Path journal = with(from, "-journal");
    std::error_code error;
    const bool cutOff =
        std::filesystem::is_regular_file(std::filesystem::symlink_status(journal, error));
    if (cutOff) {
        std::filesystem::copy_file(journal, with(to, "-journal"), error);
        if (!error) {
            error = system::flush(with(to, "-journal"));
        }
        if (!error) {
            error = system::flush(to.parent_path());
        }
        if (error) {
            return error;
        }
    }
    error = system::moveWithoutReplacing(from, to);
    std::error_code ignored;
    if (cutOff) {
        std::filesystem::remove(error ? with(to, "-journal") : journal, ignored);
    }
    return error;
}

tl::expected<void, Trouble> moveAside(const Path& from, const Path& to) {
    if (const auto error = moveWithJournal(from, to)) {
        const bool taken = error == std::errc::file_exists;
        return tl::unexpected<Trouble>(
            troubleAt(taken ? to : from, taken ? Code::Exists : codeOfSystem(error),
                      error.message()));
    }
    return {};
}

// What no program can write into, since none opens it.
bool isNobodys(Code code) {
    return code == Code::Damaged || code == Code::NotALogbook || code == Code::NewerSchema;
}

// With the lock held, so that nobody is about to write into it. What is damaged cannot be locked,
// and is put aside all the same; whatever else keeps the lock away may be somebody who writes.
tl::expected<void, Trouble> putAside(const RestoreTo& to, const Path& aside,
                                     const Writing& writing) {
    const auto connection = Connection::open(to.path, {Access::Write, to.trustLocks});
    if (connection) {
        const auto moved = (*connection)->guarded([&]() -> tl::expected<void, Trouble> {
            const WriteTransaction transaction(**connection, writing);
            return moveAside(to.path, aside);
        });
        if (moved || !isNobodys(moved.error().code)) {
            return moved;
        }
    } else if (!isNobodys(connection.error().code)) {
        return tl::unexpected<Trouble>(connection.error());
    }
    return moveAside(to.path, aside);
}

// What was put aside has its new name on the disk before another file takes the old one: else the
// power might go in between and leave the new file alone, or beside the old one's journal.
std::error_code takePlace(const UnfinishedFile& file, const RestoreResult& result) {
    if (result.aside) {
        if (const auto error = system::flush(result.aside->parent_path())) {
            return error;
        }
    }
    return file.takeName();
}

// The backup has not taken the place: what stood there goes back.
Trouble notRestored(const RestoreResult& result, const std::error_code& failed) {
    Trouble trouble = troubleAt(result.path, Code::Io, failed.message());
    if (result.aside) {
        if (moveWithJournal(*result.aside, result.path)) {
            trouble.code = Code::LeftAside;
            trouble.aside = *result.aside;
        } else {
            (void)system::flush(result.path.parent_path());
        }
    }
    return trouble;
}

}  // namespace

tl::expected<RestoreResult, Trouble> restore(const Path& backup, const RestoreTo& to,
                                             const Writing& writing) {
    std::error_code error;
    const RestoreTo whole{std::filesystem::absolute(to.path, error), to.station, to.trustLocks};
    const auto refused = [&](Trouble trouble, const UnfinishedFile& file) {
        if (trouble.path == file.path()) {
            trouble.path = whole.path;
        }
        return tl::unexpected<Trouble>(std::move(trouble));
    };
    const bool stands =
        std::filesystem::exists(std::filesystem::symlink_status(whole.path, error));
    if (stands && !std::filesystem::is_regular_file(whole.path, error)) {
        return tl::unexpected<Trouble>(troubleAt(whole.path, Code::NotALogbook));
    }
    const UnfinishedFile file(whole.path);
    const auto heads = prepare(backup, file, whole, writing);
    if (!heads) {
        return refused(heads.error(), file);
    }
    RestoreResult result{whole.path, std::nullopt, *heads};
    if (stands) {
        const Path aside = asideName(whole.path, writing.at);
        if (const auto put = putAside(whole, aside, writing); !put) {
            return refused(put.error(), file);
        }
        result.aside = aside;
    }
    if (const auto failed = takePlace(file, result)) {
        return tl::unexpected<Trouble>(notRestored(result, failed));
    }
    // Another program may have opened it by now, so that it is not taken away again.
    if (const auto failed = file.confirmName()) {
        Trouble trouble = troubleAt(whole.path, Code::NotConfirmed, failed.message());
        trouble.aside = result.aside.value_or(Path());
        return tl::unexpected<Trouble>(std::move(trouble));
    }
    return result;
}

}  // namespace store
