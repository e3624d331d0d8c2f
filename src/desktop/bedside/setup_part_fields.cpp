// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The fields; see setup_part_fields.h.
#include "desktop/bedside/setup_part_fields.h"

#include "desktop/shell/text.h"
#include "desktop/theme/appearance.h"
#include "desktop/theme/wrap_layout.h"
#include "desktop/theme/wrapped_button.h"
#include "words/attribute_text.h"
#include "words/words.h"

#include <QButtonGroup>
#include <QLabel>
#include <QLineEdit>
#include <QVBoxLayout>
#include <algorithm>
#include <array>

namespace desktop {

namespace {

// Attributes that every part may have; others come with what is proposed.
constexpr std::string_view ownLines[] = {"serial", "lot", "expires", "model"};

}  // namespace

std::optional<logbook::Day> typedDay(const QString& text) {
    auto digits = text.simplified();
    if (digits.size() == 10) return logbook::parseDay(plainText(digits));
    if (digits.size() == 6) digits.prepend(QStringLiteral("20"));
    if (digits.size() != 8) return std::nullopt;
    const auto year = digits.left(4), month = digits.mid(4, 2);
    auto day = digits.mid(6);
    const auto dayText = [&] { return plainText(year + '-' + month + '-' + day); };
    if (day != QLatin1String("00")) return logbook::parseDay(dayText());
    for (int last = 31; last >= 28; --last) {
        day = QString::number(last);
        if (auto read = logbook::parseDay(dayText())) return read;
    }
    return std::nullopt;
}

namespace {

// By which a part may be known.
constexpr std::array namingKeys{"serial", "lot", "model"};

}  // namespace

PartFields::PartFields(const words::Words& words, const Groups& groups,
                       const std::vector<report::AskedAttribute>& asked, QWidget* parent)
    : QWidget(parent), m_words(words), m_asked(asked) {
    m_layout = new QVBoxLayout(this);
    m_layout->setContentsMargins(0, 0, 0, 0);
    m_layout->setSpacing(6);
    addLine("serial", tr("&Serial, if it has one"));
    addLine("lot", tr("&Lot"));
    addLine("expires", tr("&Expires, as 2027-05-31 or 270531"));
    addLine("model", tr("&Model"));
    for (const auto* key : namingKeys)
        connect(line(key), &QLineEdit::editingFinished, this, [this, key] { tellName(key); });
    connect(line("model"), &QLineEdit::textEdited, this, &PartFields::followModel);
    connect(line("serial"), &QLineEdit::textEdited, this, &PartFields::followSerial);
    addGroups(groups);
    addReuse();
    for (const auto& each : m_asked) addAsked(each);
}

void PartFields::tellName(const char* key) {
    auto* field = line(key);
    if (!field->isModified()) return;
    field->setModified(false);
    Q_EMIT named(key, field->text().simplified());
}

void PartFields::finishTyping() {
    for (const auto* key : namingKeys) tellName(key);
}

QLineEdit* PartFields::addLine(const std::string& key, const QString& label) {
    auto* name = new QLabel(label);
    name->setWordWrap(true);
    auto* field = new QLineEdit;
    auto says = label;
    field->setAccessibleName(says.remove(QLatin1Char('&')));
    name->setBuddy(field);
    m_layout->addWidget(name);
    m_layout->addWidget(field);
    m_lines.emplace_back(key, field);
    connect(field, &QLineEdit::textChanged, this, &PartFields::changed);
    connect(field, &QLineEdit::textEdited, this, [this, key](const QString& text) {
        if (text.isEmpty()) {
            m_typed.erase(key);
        } else {
            m_typed.insert(key);
        }
    });
    return field;
}

QLineEdit* PartFields::line(std::string_view key) const {
    const auto found = std::ranges::find_if(m_lines, [&](const auto& each) {
        return each.first == key;
    });
    return found == m_lines.end() ? nullptr : found->second;
}

void PartFields::addGroups(const Groups& groups) {
    if (groups.empty()) return;
    m_layout->addWidget(new QLabel(tr("For which patient groups?")));
    auto* row = new QWidget;
    auto* flow = new WrapLayout(WrapLayout::Manner::Packed, row);
    for (const auto& [key, label] : groups) {
        auto* button = new WrappedButton(label);
        button->setCheckable(true);
        flow->addWidget(button);
        m_groups.emplace_back(key, button);
        connect(button, &QPushButton::clicked, this,
                [this] { m_statesGroups = m_hasChosenGroups = true; });
        connect(button, &QPushButton::toggled, this, &PartFields::changed);
    }
    m_layout->addWidget(row);
}

// Only where the part before states it by itself.
void PartFields::addReuse() {
    m_reuse = new QWidget;
    auto* layout = new QVBoxLayout(m_reuse);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(6);
    layout->addWidget(new QLabel(tr("How often is it used?")));
    auto* row = new QWidget;
    auto* flow = new WrapLayout(WrapLayout::Manner::Packed, row);
    auto* group = new QButtonGroup(this);
    const std::pair<const char*, QString> words[] = {
        {"single_use", tr("Once")},
        {"single_patient", tr("For one patient")},
        {"reusable", tr("Again, after reprocessing")},
        {"permanent", tr("For good")}};
    for (const auto& [key, label] : words) {
        auto* button = new WrappedButton(label);
        button->setCheckable(true);
        group->addButton(button);
        flow->addWidget(button);
        m_reuses.emplace_back(key, button);
        connect(button, &QPushButton::clicked, this, [this] { m_hasChosenReuse = true; });
        connect(button, &QPushButton::toggled, this, &PartFields::changed);
    }
    layout->addWidget(row);
    m_layout->addWidget(m_reuse);
    m_reuse->hide();
}

// The values that the edition looks for are to be pressed; any other is typed.
void PartFields::addAsked(const report::AskedAttribute& asked) {
    QStringList values;
    for (const auto& value : asked.values) values << shownAs(asked.key, value);
    auto* field = addLine(asked.key, tr("%1: %2, or what else it is")
                                         .arg(shownText(asked.label),
                                              values.join(QStringLiteral(", "))));
    auto* row = new QWidget;
    auto* flow = new WrapLayout(WrapLayout::Manner::Packed, row);
    for (const auto& value : values) {
        auto* button = new WrappedButton(value);
        flow->addWidget(button);
        connect(button, &QPushButton::clicked, this, [this, field, value, key = asked.key] {
            field->setText(value);
            m_typed.insert(key);
        });
    }
    m_layout->addWidget(row);
}

// Of a further attribute the word that rulebooks look for, with blanks; the record has it as it is.
QString PartFields::shownAs(const std::string& key, const std::string& value) {
    const bool isFurther = std::ranges::find(ownLines, key) == std::end(ownLines);
    return shownText(isFurther ? words::attributeText(value) : value);
}

void PartFields::propose(const report::PartProposal& proposal) {
    for (const auto& [key, field] : m_lines) {
        const auto text = proposal.texts.find(key);
        if (text != proposal.texts.end()) {
            field->setText(shownAs(key, text->second));
            m_typed.erase(key);
        } else if (!report::isOfOnePart(key)) {
            field->clear();
            m_typed.erase(key);
        }
    }
    for (const auto& [key, value] : proposal.texts) {
        if (line(key) != nullptr || key == "reuse") continue;
        addLine(key, shownText(words::capitalized(words::attributeLabel(m_words, key))))
            ->setText(shownAs(key, value));
    }
    showGroups(proposal);
    showReuse(proposal);
    m_proposed = proposal;
    m_isOfOther = m_hasChosenGroups = m_hasChosenReuse = false;
    // What is typed into one of them by now is of what stood there before.
    for (const auto& [key, field] : m_lines)
        if (field->hasFocus()) field->selectAll();
    Q_EMIT changed();
}

bool PartFields::isOfOtherModel() const {
    const auto proposed = textIn(m_proposed, "model");
    const auto typed = line("model")->text().simplified();
    return !proposed.isEmpty() && !typed.isEmpty() && typed != proposed;
}

bool PartFields::isOfOtherPart() const {
    const auto proposed = textIn(m_proposed, "serial");
    return !proposed.isEmpty() && line("serial")->text().simplified() != proposed;
}

QStringList PartFields::lacking() const {
    QStringList told;
    for (const auto& asked : m_asked)
        if (line(asked.key)->text().simplified().isEmpty())
            told << tr("Not said: %1. The policy edition looks for it.")
                        .arg(shownText(asked.label));
    if (isOfOtherModel())
        told << tr("Nothing is known of this model here. Say what it is like: what the one before "
                   "was like is not taken for it.");
    return told;
}

void PartFields::followSerial() {
    if (!isOfOtherPart()) return;
    for (const auto& [key, field] : m_lines)
        if (key != "serial" && report::isOfOnePart(key) && !m_typed.contains(key)) field->clear();
    Q_EMIT changed();
}

// What a part is like, but for what somebody has said of this one.
void PartFields::showLikeness(const report::PartProposal& proposal) {
    for (const auto& [key, field] : m_lines)
        if (std::ranges::find(ownLines, key) == std::end(ownLines) && !m_typed.contains(key))
            field->setText(textIn(proposal, key));
    if (!m_hasChosenGroups) showGroups(proposal);
    if (m_hasChosenReuse) return;
    const auto reuse = proposal.texts.find("reuse");
    for (const auto& [key, button] : m_reuses) {
        auto* group = button->group();
        group->setExclusive(false);  // else the one that is pressed could not be let go
        button->setChecked(reuse != proposal.texts.end() && key == reuse->second);
        group->setExclusive(true);
    }
}

void PartFields::followModel() {
    if (isOfOtherModel() == m_isOfOther) return;
    m_isOfOther = !m_isOfOther;
    showLikeness(m_isOfOther ? report::PartProposal{} : m_proposed);
    Q_EMIT changed();
}

void PartFields::showGroups(const report::PartProposal& proposal) {
    m_statesGroups = proposal.groups.has_value();
    for (const auto& [key, button] : m_groups)
        button->setChecked(proposal.groups &&
                           std::ranges::find(*proposal.groups, key) != proposal.groups->end());
}

void PartFields::showReuse(const report::PartProposal& proposal) {
    const auto reuse = proposal.texts.find("reuse");
    m_reuse->setVisible(reuse != proposal.texts.end());
    for (const auto& [key, button] : m_reuses)
        if (reuse != proposal.texts.end()) button->setChecked(key == reuse->second);
}

QString PartFields::textIn(const report::PartProposal& proposal, const std::string& key) {
    const auto text = proposal.texts.find(key);
    return text == proposal.texts.end() ? QString() : shownAs(key, text->second);
}

std::string PartFields::chosenReuse() const {
    for (const auto& [key, button] : m_reuses)
        if (!m_reuse->isHidden() && button->isChecked()) return key;
    return {};
}

void PartFields::renew(const report::PartProposal& proposal) {
    if (m_isOfOther) return;
    for (const auto& [key, value] : proposal.texts)
        if (line(key) == nullptr && key != "reuse")
            addLine(key, shownText(words::capitalized(words::readable(key))));
    for (const auto& [key, field] : m_lines)
        if (field->text() == textIn(m_proposed, key)) field->setText(textIn(proposal, key));
    const auto before = m_proposed.groups.value_or(std::vector<std::string>{});
    std::vector<std::string> proposed;
    for (const auto& [key, button] : m_groups)
        if (std::ranges::find(before, key) != before.end()) proposed.push_back(key);
    if (chosenGroups() == proposed) showGroups(proposal);
    const auto reuse = m_proposed.texts.find("reuse");
    if (chosenReuse() == (reuse == m_proposed.texts.end() ? "" : reuse->second))
        showReuse(proposal);
    m_proposed = proposal;
    Q_EMIT changed();
}

bool PartFields::losesTyped(const report::PartProposal& proposal) const {
    return std::ranges::any_of(m_lines, [&](const auto& each) {
        const auto& [key, field] = each;
        if (!m_typed.contains(key)) return false;
        const auto text = proposal.texts.find(key);
        if (text == proposal.texts.end()) return !report::isOfOnePart(key);
        return field->text().simplified().compare(shownAs(key, text->second),
                                                  Qt::CaseInsensitive) != 0;
    });
}

std::string PartFields::wordIn(const std::string& key, const QLineEdit& field) const {
    const auto proposed = m_proposed.texts.find(key);
    if (proposed != m_proposed.texts.end() && shownAs(key, proposed->second) == field.text())
        return proposed->second;
    const auto asked = std::ranges::find(m_asked, key, &report::AskedAttribute::key);
    if (asked != m_asked.end())
        for (const auto& value : asked->values)
            if (field.text().simplified().compare(shownAs(key, value), Qt::CaseInsensitive) == 0)
                return value;
    return plainText(field.text().simplified());
}

station::StatedPart PartFields::stated(const std::string& position) const {
    station::StatedPart part{position, {}, {}};
    for (const auto& [key, field] : m_lines)
        if (auto text = wordIn(key, *field); !text.empty())
            part.texts.emplace(key, std::move(text));
    if (const auto expires = part.texts.find("expires"); expires != part.texts.end())
        if (const auto day = typedDay(shownText(expires->second)))
            expires->second = logbook::toText(*day);
    if (auto reuse = chosenReuse(); !reuse.empty())
        part.texts.emplace("reuse", std::move(reuse));
    if (m_statesGroups) part.groups = chosenGroups();
    return part;
}

std::vector<std::string> PartFields::chosenGroups() const {
    std::vector<std::string> groups;
    for (const auto& [key, button] : m_groups)
        if (button->isChecked()) groups.push_back(key);
    return groups;
}

QString PartFields::wrong() const {
    const auto expires = line("expires")->text().simplified();
    if (!expires.isEmpty() && !typedDay(expires))
        return tr("%1 is no day. Write it as 2027-05-31 or 270531.").arg(expires);
    // Nobody can look for a part of which nothing is known.
    if (std::ranges::all_of(std::array{"model", "serial", "lot"}, [this](const char* key) {
            const auto* field = line(key);
            return field == nullptr || field->text().simplified().isEmpty();
        }))
        return tr("First: model, serial number or lot");
    return {};
}

bool PartFields::typeIntoFocused(const QString& text) {
    for (const auto& [key, field] : m_lines) {
        if (!field->hasFocus()) continue;
        if (m_typed.contains(key)) return false;
        field->setText(text);
        field->setModified(true);
        followModel();
        return true;
    }
    return false;
}

bool PartFields::typeLot(const QString& text) {
    auto* field = line("lot");
    if (m_typed.contains("lot") && field->text().simplified() != text) return false;
    field->setText(text);
    field->setModified(true);
    return true;
}

}  // namespace desktop
