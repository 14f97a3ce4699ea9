package org.wearledger.report;

import java.io.IOException;

/** A step that may fail on the disk. */
@FunctionalInterface
public interface IOConsumer<T> {
    /** Does the step; what the disk refuses is thrown on. */
    void accept(T value) throws IOException;
}
