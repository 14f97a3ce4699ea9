package org.wearledger.cli;

import java.lang.reflect.Member;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import picocli.CommandLine;
import picocli.CommandLine.Help;
import picocli.CommandLine.Model.OptionSpec;

/** The options in the help by what they are for, which is the class that declares them, in place of one long list. */
final class OptionSections {
    private static final Map<Class<?>, String> HEADINGS = headings();
    private static final String OWN = "";

    private OptionSections() {
    }

    private static Map<Class<?>, String> headings() {
        Map<Class<?>, String> headings = new LinkedHashMap<>();
        headings.put(InputOptions.class, "%nWhat is read:%n");
        headings.put(JudgingOptions.class, "%nHow machines are judged:%n");
        headings.put(BudgetOptions.class, "%nMoney and plan:%n");
        headings.put(MoneyOptions.class, "%nMoney and plan:%n");
        headings.put(EngineOptions.class, "%nHow it runs:%n");
        return headings;
    }

    static void in(CommandLine command) {
        command.getHelpSectionMap().put(CommandLine.Model.UsageMessageSpec.SECTION_KEY_OPTION_LIST, OptionSections::text);
    }

    private static String text(Help help) {
        Map<String, List<OptionSpec>> sections = new LinkedHashMap<>();
        sections.put(OWN, new ArrayList<>());
        HEADINGS.values().forEach(heading -> sections.put(heading, new ArrayList<>()));
        help.commandSpec().options().stream().filter(option -> option.group() == null && !option.hidden())
            .forEach(option -> sections.get(heading(option)).add(option));
        StringBuilder text = new StringBuilder();
        sections.forEach((heading, options) -> {
            if (!options.isEmpty()) {
                text.append(help.createHeading(heading)).append(help.optionListExcludingGroups(options));
            }
        });
        return text.append(help.optionListGroupSections()).toString();
    }

    private static String heading(OptionSpec option) {
        return option.userObject() instanceof Member member ? HEADINGS.getOrDefault(member.getDeclaringClass(), OWN) : OWN;
    }
}
