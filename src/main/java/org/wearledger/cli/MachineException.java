package org.wearledger.cli;

import java.io.IOException;

/** The machine does not let the program run; the message is for the user. */
final class MachineException extends IOException {
    private static final long serialVersionUID = 1;

    MachineException(String message, Throwable cause) {
        super(message, cause);
    }
}
