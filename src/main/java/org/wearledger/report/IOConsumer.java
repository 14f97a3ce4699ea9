package org.wearledger.report;

import java.io.IOException;

/** A step that may fail on the disk. */
@FunctionalInterface
public interface IOConsumer<T> {
    void accept(T value) throws IOException;
}
