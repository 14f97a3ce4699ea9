package org.wearledger.cli;

import java.util.Arrays;
import org.wearledger.model.ProjectionMethod;
import picocli.CommandLine.ITypeConverter;
import picocli.CommandLine.TypeConversionException;

/** Reads {@code --method} by the labels that the outputs print. */
final class MethodConverter implements ITypeConverter<ProjectionMethod> {
    @Override
    public ProjectionMethod convert(String text) {
        return Arrays.stream(ProjectionMethod.values()).filter(method -> method.label().equals(text)).findFirst()
            .orElseThrow(() -> new TypeConversionException("expected one of "
                + String.join(", ", Arrays.stream(ProjectionMethod.values()).map(ProjectionMethod::label).toList())
                + ", not " + text));
    }
}
