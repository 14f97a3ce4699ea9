package org.wearledger.report;

import java.io.IOException;

/** The output folder is left as it is; the message says why and what to do. */
public final class OutputRefusedException extends IOException {
    OutputRefusedException(String message) {
        super(message);
    }

    OutputRefusedException(String message, Throwable cause) {
        super(message, cause);
    }
}
