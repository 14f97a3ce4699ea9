package org.wearledger.cli;

import java.io.IOException;
import java.io.StringReader;
import java.nio.charset.CharacterCodingException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.List;
import java.util.Properties;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.apache.commons.text.similarity.LevenshteinDistance;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.IDefaultValueProvider;
import picocli.CommandLine.Model.ArgSpec;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Unmatched;

/**
 * Options that are the same each quarter: a properties file of their long names without the dashes, such as {@code fiscal-year-start=4}.
 * What stands on the command line wins. A name that only another command has is for that command; one that none has is refused.
 */
final class SettingsFile implements IDefaultValueProvider {
    /** One letter in three may differ. */
    private static final int LETTERS_PER_SLIP = 3;
    /** What names this run and no other. */
    private static final List<String> NEVER = List.of("settings", "help", "version");

    static final String OPTION = "--settings";
    /** Every command that reads reports has it. */
    private static final String OF_REPORTS = "--mapping";

    /** The command line with all but one option left aside: the others need their defaults first. */
    @Command
    private static final class OnlySettings {
        @Option(names = OPTION)
        private Path file;

        @Unmatched
        private List<String> others;
    }

    private final Properties settings;

    private SettingsFile(Properties settings) {
        this.settings = settings;
    }

    /**
     * No settings, when none are asked for.
     *
     * @throws ParameterException as {@link #load}
     */
    static SettingsFile of(CommandLine root, String... args) {
        OnlySettings only = new OnlySettings();
        try {
            new CommandLine(only).parseArgs(args);
        } catch (ParameterException e) {
            throw new ParameterException(root, e.getMessage(), e);
        }
        return only.file == null ? new SettingsFile(new Properties()) : load(only.file, root);
    }

    /** @throws ParameterException when the file cannot be read or names an option that no command has */
    static SettingsFile load(Path file, CommandLine root) {
        TreeSet<String> twice = new TreeSet<>();
        Properties settings = new Properties() {
            @Override
            public synchronized Object put(Object key, Object value) {
                Object before = super.put(key, value);
                if (before != null) {
                    twice.add((String) key);
                }
                return before;
            }
        };
        try {
            // Some editors begin UTF-8 with a byte order mark.
            settings.load(new StringReader(text(file).replaceFirst("^\uFEFF", "")));
        } catch (CharacterCodingException | IllegalArgumentException e) {
            throw new ParameterException(root, "--settings " + file + " is no properties file in UTF-8, with lines such as lead-time-days=45");
        } catch (IOException e) {
            throw new ParameterException(root, "--settings " + file + ": no such file can be read");
        }
        if (!twice.isEmpty()) {
            throw new ParameterException(root, "--settings " + file + " sets " + String.join(", ", twice) + " more than once; leave one line of each");
        }
        TreeSet<String> known = new TreeSet<>();
        root.getSubcommands().values().stream().map(CommandLine::getCommandSpec).filter(SettingsFile::isForReports)
            .forEach(command -> command.options().forEach(option -> known.add(name(option))));
        NEVER.forEach(known::remove);
        TreeSet<String> unknown = new TreeSet<>(settings.stringPropertyNames());
        unknown.removeAll(known);
        if (!unknown.isEmpty()) {
            throw new ParameterException(root, "--settings " + file + " sets " + unknown.stream().map(name -> "\"" + name + "\", which no command that reads reports has"
                + like(name, known)).collect(Collectors.joining("; and ")));
        }
        return new SettingsFile(settings);
    }

    /** A device has no end. */
    private static String text(Path file) throws IOException {
        if (!Files.isRegularFile(file)) {
            throw new NoSuchFileException(file.toString());
        }
        return Files.readString(file);
    }

    private static String like(String name, TreeSet<String> known) {
        LevenshteinDistance distance = LevenshteinDistance.getDefaultInstance();
        String plain = name.replaceFirst("^-+", "");
        return known.stream().filter(each -> LETTERS_PER_SLIP * distance.apply(plain, each) <= plain.length() || each.startsWith(plain) && !plain.isEmpty())
            .min(Comparator.comparing(each -> distance.apply(plain, each))).map(each -> "; did you mean " + each + "?")
            .orElse("; a setting is an option's long name without its dashes");
    }

    private static boolean isForReports(CommandSpec command) {
        return command.findOption(OF_REPORTS) != null;
    }

    private static String name(OptionSpec option) {
        return option.longestName().replaceFirst("^-+", "");
    }

    @Override
    public String defaultValue(ArgSpec argument) {
        return argument.isOption() && isForReports(argument.command()) ? settings.getProperty(name((OptionSpec) argument)) : null;
    }
}
