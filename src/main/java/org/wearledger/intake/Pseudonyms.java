package org.wearledger.intake;

import java.io.Serializable;
import java.nio.charset.StandardCharsets;
import java.security.GeneralSecurityException;
import java.util.HexFormat;
import java.util.List;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import javax.crypto.Mac;
import javax.crypto.spec.SecretKeySpec;
import org.wearledger.model.Decision;
import org.wearledger.model.Drive;
import org.wearledger.model.DriveId;
import org.wearledger.model.InventoryEntry;
import org.wearledger.model.Machine;
import org.wearledger.model.MachineSnapshot;
import org.wearledger.model.Outcome;
import org.wearledger.model.Problem;
import org.wearledger.model.ProblemKind;
import org.wearledger.model.Reading;
import org.wearledger.model.Repair;
import org.wearledger.model.SourcePlace;
import org.wearledger.model.SweepSnapshot;

/**
 * Names that tell nobody which machine or drive is meant, and that only the holder of the key can make again: HMAC-SHA-256 (RFC 2104,
 * FIPS 180-4) of the folded name, of which the first 96 bits are kept. Among ten million names two agree with a probability below
 * 10^-14 (n^2 / 2^97). The same key gives the same names each quarter.
 *
 * <p>Put on at intake: whatever comes later sees pseudonyms only. A name that has the form of a pseudonym stays as it is, so that an
 * earlier output, or a machine asked for by its pseudonym, is understood.
 */
public final class Pseudonyms implements Serializable {
    private static final String ALGORITHM = "HmacSHA256";
    private static final int BYTES_KEPT = 12;
    private static final String HASH = "-[0-9A-F]{24}";
    private static final Pattern MADE_HERE = Pattern.compile("0*(MACHINE|ASSET|SERIAL|USER)" + HASH);
    private static final Pattern FILE_MADE_HERE = Pattern.compile("FILE" + HASH + "[a-z.]*");
    private static final Pattern ENDING = Pattern.compile("(?is).*?((\\.(json|jsonl|ndjson|csv))?(\\.gz)?)");
    private static final Pattern LEADING_ZEROS = Pattern.compile("(0*)(.+)");

    /** {@code null} for {@link #none}. */
    private final byte[] key;

    private Pseudonyms(byte[] key) {
        this.key = key == null ? null : key.clone();
    }

    /** Every name stays. */
    public static Pseudonyms none() {
        return new Pseudonyms(null);
    }

    /** @param key {@code null} for {@link #none}; how long it must be is the command line's to say */
    public static Pseudonyms of(byte[] key) {
        return new Pseudonyms(key);
    }

    /** Whether every name stays. */
    public boolean isNone() {
        return key == null;
    }

    /** Example: {@code MACHINE-3F0A9C51D2E87B6410C4A95E}. */
    public String machine(String id) {
        return named("MACHINE", id);
    }

    /**
     * A serial number that names no drive, such as {@code NONE}, stays. Leading zeros stay in front, since a rule compares serial
     * numbers without them.
     */
    public String serial(String serial) {
        if (isNone() || DriveId.isPlaceholder(DriveId.fold(serial)) || isMadeHere(serial)) {
            return serial;
        }
        Matcher parts = LEADING_ZEROS.matcher(DriveId.fold(serial));
        parts.matches();
        return parts.group(1) + named("SERIAL", parts.group(2));
    }

    /** A file is often named after its machine. Its ending stays. */
    public String file(String name) {
        if (isNone() || FILE_MADE_HERE.matcher(name).matches()) {
            return name;
        }
        Matcher ending = ENDING.matcher(name);
        ending.matches();
        return "FILE-" + hash("FILE", name) + ending.group(1).toLowerCase(Locale.ROOT);
    }

    /** Names of files, sorted by their pseudonyms. */
    public List<String> files(List<String> names) {
        return isNone() ? names : names.stream().map(this::file).sorted().toList();
    }

    private String named(String what, String name) {
        return isNone() || name == null || isMadeHere(name) ? name : what + "-" + hash(what, DriveId.fold(name));
    }

    private static boolean isMadeHere(String name) {
        return MADE_HERE.matcher(DriveId.fold(name)).matches();
    }

    /** The kind of name is hashed with it: a machine named like a drive has another pseudonym than the drive. */
    private String hash(String what, String name) {
        try {
            Mac mac = Mac.getInstance(ALGORITHM);
            mac.init(new SecretKeySpec(key, ALGORITHM));
            byte[] hash = mac.doFinal((what + '\0' + name).getBytes(StandardCharsets.UTF_8));
            return HexFormat.of().withUpperCase().formatHex(hash, 0, BYTES_KEPT);
        } catch (GeneralSecurityException e) {
            throw new IllegalStateException("every Java has " + ALGORITHM, e);
        }
    }

    Outcome<Reading> of(Outcome<Reading> outcome) {
        return isNone() ? outcome : new Outcome<>(outcome.values().stream().map(this::of).toList(), problems(outcome.problems()));
    }

    /** The reading under pseudonyms of its machine, drive and file. */
    public Reading of(Reading reading) {
        if (isNone()) {
            return reading;
        }
        Machine m = reading.machine();
        Drive d = reading.drive();
        return new Reading(of(reading.source()), reading.collectedAt(), new Machine(machine(m.id()), named("ASSET", m.assetTag()), m.site(), m.costCentre(),
            m.model(), m.memoryBytes(), m.swapUsedBytes(), m.inServiceOn(), m.userSince()),
            new Drive(serial(d.serial()), d.model(), d.firmware(), d.capacityBytes(), d.attachment()), reading.health());
    }

    private SourcePlace of(SourcePlace source) {
        return new SourcePlace(file(source.file()), source.index(), source.place());
    }

    /** Of reports: what they quote of a file is withheld, since anything may stand there. */
    public List<Problem> problems(List<Problem> problems) {
        return isNone() ? problems : problems.stream().map(problem -> problem(problem, of(problem.source()))).toList();
    }

    private Problem problem(Problem problem, SourcePlace source) {
        // Without a machine's name a problem names the drive.
        boolean ofDrive = problem.kind() == ProblemKind.FIELD_MISSING && problem.fields().stream().anyMatch(field -> field.name().equals("machine.id"));
        String subject = problem.subject().isEmpty() ? "" : ofDrive ? serial(problem.subject()) : machine(problem.subject());
        return problem.at(source, subject).withheld();
    }

    /** A side table has the one name that it is known by. */
    public List<Problem> problemsOfTable(List<Problem> problems) {
        return isNone() ? problems : problems.stream().map(problem -> problem(problem, problem.source())).toList();
    }

    /** The row under the machine's pseudonym. */
    public InventoryEntry of(InventoryEntry e) {
        return isNone() ? e : new InventoryEntry(machine(e.machineId()), e.site(), e.costCentre(), e.inServiceOn(), e.warrantyEndsOn(), e.memoryBytes(), e.attachment(),
            e.userSince(), e.driveReplacedOn(), e.ownership(), named("ASSET", e.assetTag()), e.machineModel(), named("USER", e.user()), e.refreshOn(), e.supportEndsOn());
    }

    /** The row under the machine's pseudonym, without the note. */
    public Decision of(Decision d) {
        return isNone() ? d : new Decision(machine(d.machineId()), d.state(), d.date(), d.until(), d.item(), d.cost(), null);
    }

    /** The row under pseudonyms of its ticket, machine and drive. */
    public Repair of(Repair r) {
        return isNone() ? r : new Repair(named("TICKET", r.ticket()), machine(r.machineId()), r.driveSerial() == null ? null : serial(r.driveSerial()), r.site(), r.date(),
            r.reason(), r.action(), r.cost());
    }

    /** The earlier sweep under pseudonyms of its machines and drives. */
    public SweepSnapshot of(SweepSnapshot sweep) {
        return isNone() ? sweep : new SweepSnapshot(sweep.machines().stream().map(this::of).toList(), sweep.asks(), sweep.costs());
    }

    /** The earlier sweep's row under pseudonyms of its machine and drives. */
    public MachineSnapshot of(MachineSnapshot s) {
        return isNone() ? s : new MachineSnapshot(machine(s.machineId()), s.site(), s.driveSerials().stream().map(this::serial).sorted().toList(), s.standing(),
            s.gigabytesPerDay(), s.memoryGibibytes(), s.lastSeenOn(), s.reported(), s.planned() == null ? null : s.planned().stream().map(this::of).toList());
    }

    private MachineSnapshot.Planned of(MachineSnapshot.Planned p) {
        return new MachineSnapshot.Planned(serial(p.driveSerial()), p.item(), p.needOn(), p.orderByOn(), p.late(), p.amount());
    }
}
