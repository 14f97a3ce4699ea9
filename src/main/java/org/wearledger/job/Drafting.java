package org.wearledger.job;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.wearledger.intake.ExportFolders;
import org.wearledger.intake.FoundFiles;
import org.wearledger.intake.InputMissingException;
import org.wearledger.model.FolderDraft;

/** Proposes mappings for exports, for a person to complete. */
public final class Drafting {
    /** The name under which check and sweep find a mapping beside the reports. */
    public static final String MAPPING_FILE = FoundFiles.MAPPING_FILE;

    private Drafting() {
    }

    /**
     * For a file one, for a folder one for each of its folders whose exports are alike.
     *
     * @throws InputRefusedException when nothing is there, or nothing that needs a mapping
     */
    public static List<FolderDraft> of(Path exports) throws IOException {
        if (!Files.exists(exports)) {
            throw new InputRefusedException("no such file: " + exports, null);
        }
        try {
            return Files.isDirectory(exports) ? ExportFolders.below(exports) : List.of(ExportFolders.around(exports));
        } catch (InputMissingException e) {
            throw new InputRefusedException(e.getMessage(), e);
        }
    }
}
