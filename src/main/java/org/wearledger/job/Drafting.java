package org.wearledger.job;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.wearledger.intake.FoundFiles;
import org.wearledger.intake.InputMissingException;
import org.wearledger.intake.MappingDrafter;
import org.wearledger.model.MappingDraft;

/** Proposes a mapping for an export, for a person to complete. */
public final class Drafting {
    /** The name under which check and sweep find a mapping beside the reports. */
    public static final String MAPPING_FILE = FoundFiles.MAPPING_FILE;

    private Drafting() {
    }

    /** @throws InputRefusedException when the file is not there or holds no record that can be read */
    public static MappingDraft of(Path export) throws IOException {
        if (!Files.isRegularFile(export)) {
            throw new InputRefusedException("no such file: " + export, null);
        }
        try {
            return MappingDrafter.of(export);
        } catch (InputMissingException e) {
            throw new InputRefusedException(e.getMessage(), e);
        }
    }
}
