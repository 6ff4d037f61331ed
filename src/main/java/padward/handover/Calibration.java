package padward.handover;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import padward.base.BadInput;
import padward.base.Progress;
import padward.capture.Channel;
import padward.capture.ChannelDifferences;
import padward.capture.ChannelDifferences.Shown;
import padward.capture.ChannelSkew;
import padward.change.LedgerEntry;
import padward.change.LedgerLead;
import padward.fabric.delay.Delay;
import padward.timing.PairSkew;
import padward.timing.TimeStampCorrections;

/**
 * What a capture of one net on several pads shows of their lines. The lines that other nets have on
 * these pads then get measured delays.
 *
 * @param net the net
 * @param readings one for each line that the capture shows, in the order of the sheet
 * @param changes how many changes of the net they were read from
 */
public record Calibration(String net, List<Reading> readings, int changes) {
    /** What instruments put before the number of a channel. */
    public static final List<String> CHANNEL_WORDS = List.of("", "ch", "Ch", "CH");

    /** Copies the readings. */
    public Calibration {
        readings = List.copyOf(readings);
    }

    /**
     * What was measured on one pad.
     *
     * @param pad the pad
     * @param toDriver the calculated delay of the measured line to the pad's driver
     * @param range its calculated delay to the instrument
     * @param measured the measured one
     */
    public record Reading(String pad, Delay toDriver, Delay range, LedgerLead.Measured measured) {
        /**
         * The delay of another net's line that leaves by the same pad: what was measured, and the
         * calculated difference of the two nets' routes to the pad's driver, with its local
         * variation.
         *
         * @param otherToDriver the line's calculated delay to the pad's driver
         * @param otherRange its calculated delay to the instrument
         */
        public LedgerLead.Measured on(Delay otherToDriver, Delay otherRange, double localPercent) {
            if (otherToDriver.equals(toDriver) && otherRange.equals(range)) {
                return measured;
            }
            int further = otherRange.middlePs() - range.middlePs();
            long routes = (long) otherToDriver.slowPs() + toDriver.slowPs();
            // Half for each route; and how wide the corners of the two differ.
            double local = PairSkew.localPs(routes, localPercent);
            int corner = Math.abs(otherRange.spreadPs() - range.spreadPs()) / 2;
            return new LedgerLead.Measured(
                    measured.ps() + further,
                    measured.tolerancePs() + corner + (int) Math.ceil(local));
        }
    }

    /**
     * Reads the calibration of a sheet: the last of its pages on which all lines show one net, two
     * lines or more.
     *
     * @param capture what the instrument took; its channels are called as the sheet calls its
     *     lines: by channel, place, port, pad, package pin or lead
     * @param samplePs sampling period, ps; 0 when not known or ignored
     * @throws BadInput when the sheet has no such page, or the capture does not show its lines
     * @throws java.util.concurrent.CancellationException when {@code progress} says so
     */
    public static Calibration read(Path capture, BenchSheet sheet, int samplePs, Progress progress)
            throws BadInput {
        List<BenchSheet.Line> lines =
                findPage(sheet)
                        .orElseThrow(
                                () ->
                                        new BadInput(
                                                "ledger",
                                                "",
                                                "an entry that brings one net out on several pads",
                                                "none"))
                        .lines();
        Map<String, BenchSheet.Line> byName = names(lines);
        List<ChannelSkew> shown =
                ChannelDifferences.read(
                        capture,
                        c -> find(byName, c).map(Calibration::shown).orElse(Shown.NOT_AT_ALL),
                        samplePs,
                        progress);
        Map<BenchSheet.Line, ChannelSkew> byLine = new HashMap<>();
        for (ChannelSkew one : shown) {
            BenchSheet.Line line = find(byName, one.channel()).orElseThrow();
            if (byLine.put(line, one) != null) {
                throw new BadInput(
                        capture.toString(),
                        "channel " + one.channel().name(),
                        "one channel for each line",
                        "a second one for pad " + line.pad());
            }
        }
        return new Calibration(lines.get(0).net(), readings(lines, byLine), shown.get(0).changes());
    }

    private static Shown shown(BenchSheet.Line line) {
        return line.inverted() ? Shown.INVERTED : Shown.AS_IT_IS;
    }

    /** The page of a calibration. */
    private static Optional<BenchSheet.Page> findPage(BenchSheet sheet) {
        return sheet.pages().stream()
                .filter(
                        p ->
                                p.lines().size() > 1
                                        && p.lines().stream()
                                                        .map(BenchSheet.Line::net)
                                                        .distinct()
                                                        .count()
                                                == 1)
                .reduce((before, last) -> last);
    }

    private static Map<String, BenchSheet.Line> names(List<BenchSheet.Line> lines) {
        Map<String, BenchSheet.Line> names = new HashMap<>();
        for (BenchSheet.Line line : lines) {
            for (String word : CHANNEL_WORDS) {
                names.putIfAbsent(word + line.channel(), line);
            }
            names.putIfAbsent(line.port(), line);
            names.putIfAbsent(line.pad(), line);
            line.place().ifPresent(p -> names.putIfAbsent(p.toShortText(), line));
            for (String name : List.of(line.packagePin(), line.lead().name())) {
                if (!name.isEmpty()) {
                    names.putIfAbsent(name, line);
                }
            }
        }
        return names;
    }

    private static Optional<BenchSheet.Line> find(
            Map<String, BenchSheet.Line> names, Channel channel) {
        return Optional.ofNullable(names.get(channel.name()))
                .or(() -> Optional.ofNullable(names.get(channel.own())));
    }

    /** Only differences count: their mean is put where it is calculated. */
    private static List<Reading> readings(
            List<BenchSheet.Line> lines, Map<BenchSheet.Line, ChannelSkew> shown) {
        List<BenchSheet.Line> measured = lines.stream().filter(shown::containsKey).toList();
        long level =
                TimeStampCorrections.levelPs(
                        measured.stream()
                                .map(l -> (long) l.atInstrument().middlePs() - shown.get(l).ps())
                                .toList());
        List<Reading> readings = new ArrayList<>();
        for (BenchSheet.Line line : measured) {
            ChannelSkew one = shown.get(line);
            readings.add(
                    new Reading(
                            line.pad(),
                            line.timing().chain().toPad(),
                            line.atInstrument(),
                            new LedgerLead.Measured((int) (one.ps() + level), one.tolerancePs())));
        }
        return readings;
    }

    /** The delay of a line of a sheet, if its pad was measured. */
    public Optional<LedgerLead.Measured> on(BenchSheet.Line line, double localPercent) {
        return readings.stream()
                .filter(r -> r.pad().equals(line.pad()))
                .findFirst()
                .map(r -> r.on(line.timing().chain().toPad(), line.atInstrument(), localPercent));
    }

    /**
     * The entries of a ledger with the measured delays of all lines on the pads that were measured;
     * others stay as they are.
     *
     * @param sheet the sheet of these entries
     */
    public List<LedgerEntry> to(List<LedgerEntry> entries, BenchSheet sheet, double localPercent) {
        Map<String, LedgerLead.Measured> byPort = new HashMap<>();
        sheet.lines().forEach(l -> on(l, localPercent).ifPresent(m -> byPort.put(l.port(), m)));
        List<List<LedgerLead>> leads = LedgerLead.all(entries);
        List<LedgerEntry> changed = new ArrayList<>();
        for (int i = 0; i < entries.size(); i++) {
            List<LedgerLead> now = new ArrayList<>();
            for (LedgerLead lead : leads.get(i)) {
                LedgerLead.Measured measured = byPort.get(lead.port());
                now.add(measured == null ? lead : lead.withMeasured(Optional.of(measured)));
            }
            changed.add(entries.get(i).withLeads(now));
        }
        return changed;
    }
}
