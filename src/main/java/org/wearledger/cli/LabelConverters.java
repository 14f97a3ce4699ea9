package org.wearledger.cli;

import java.time.LocalDate;
import java.time.format.DateTimeParseException;
import java.util.Arrays;
import java.util.function.Function;
import org.wearledger.model.Ownership;
import org.wearledger.model.ProblemKind;
import org.wearledger.model.ProjectionMethod;
import org.wearledger.model.Standing;
import picocli.CommandLine.ITypeConverter;
import picocli.CommandLine.TypeConversionException;

/** Reads option values in the words that help and outputs use, and says which words there are. */
final class LabelConverters {
    private LabelConverters() {
    }

    static final class ForMethod implements ITypeConverter<ProjectionMethod> {
        @Override
        public ProjectionMethod convert(String text) {
            return byLabel(ProjectionMethod.values(), ProjectionMethod::label, text);
        }
    }

    static final class ForOwnership implements ITypeConverter<Ownership> {
        @Override
        public Ownership convert(String text) {
            return byLabel(Ownership.values(), whose -> whose == Ownership.OWN ? "own" : "customers", text);
        }
    }

    /** As outputs write it, or with the hyphen that needs no quotes. */
    static final class ForStanding implements ITypeConverter<Standing> {
        @Override
        public Standing convert(String text) {
            return byLabel(Standing.values(), Standing::label, text.replace('-', ' '));
        }
    }

    static final class ForReader implements ITypeConverter<PageReader> {
        @Override
        public PageReader convert(String text) {
            return byLabel(PageReader.values(), PageReader::toString, text);
        }
    }

    static final class ForFailOn implements ITypeConverter<FailOn> {
        @Override
        public FailOn convert(String text) {
            return byLabel(FailOn.values(), FailOn::toString, text);
        }
    }

    static final class ForDate implements ITypeConverter<LocalDate> {
        @Override
        public LocalDate convert(String text) {
            try {
                LocalDate date = LocalDate.parse(text);
                if (date.getYear() < 2011 || date.getYear() > 2199) {
                    throw new TypeConversionException("expected a date from 2011 to 2199, not " + text);
                }
                return date;
            } catch (DateTimeParseException e) {
                throw new TypeConversionException("expected a date such as 2025-01-06, not " + text);
            }
        }
    }

    /** As problems.csv names it. */
    static final class ForRule implements ITypeConverter<ProblemKind> {
        @Override
        public ProblemKind convert(String text) {
            return Arrays.stream(ProblemKind.values()).filter(rule -> rule.id().equals(text)).findFirst()
                .orElseThrow(() -> new TypeConversionException("no rule is called " + text + "; problems.csv has the names in its column rule"));
        }
    }

    static final class ForRows implements ITypeConverter<Integer> {
        @Override
        public Integer convert(String text) {
            if (text.equals("all")) {
                return Integer.MAX_VALUE;
            }
            if (!text.matches("[1-9]\\d{0,8}")) {
                throw new TypeConversionException("expected a number of rows from 1, or all, not " + text);
            }
            return Integer.valueOf(text);
        }
    }

    private static <T> T byLabel(T[] values, Function<T, String> label, String text) {
        return Arrays.stream(values).filter(value -> label.apply(value).equals(text)).findFirst()
            .orElseThrow(() -> new TypeConversionException("expected one of "
                + String.join(", ", Arrays.stream(values).map(label).toList()) + ", not " + text));
    }
}
