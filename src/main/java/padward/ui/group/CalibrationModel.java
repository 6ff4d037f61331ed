package padward.ui.group;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import javafx.beans.property.BooleanProperty;
import javafx.beans.property.ObjectProperty;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.SimpleBooleanProperty;
import javafx.beans.property.SimpleObjectProperty;
import javafx.beans.property.SimpleStringProperty;
import javafx.beans.property.StringProperty;
import padward.base.BadInput;
import padward.breakout.ask.Cautions;
import padward.breakout.ask.Price;
import padward.breakout.ask.WantedDriver;
import padward.breakout.group.Bus;
import padward.breakout.group.CalibrationGroup;
import padward.breakout.text.PriceText;
import padward.change.Edit;
import padward.change.Ledger;
import padward.change.LedgerEntry;
import padward.change.LedgerLead;
import padward.change.Outcome;
import padward.design.Design;
import padward.design.NameLookup;
import padward.design.PadNames;
import padward.format.ledger.EntrySigning;
import padward.handover.BenchSheet;
import padward.handover.Calibration;
import padward.timing.ExternalLineDelay;
import padward.timing.Instrument;
import padward.timing.PairSkew;
import padward.ui.control.NamesOfDesign;
import padward.ui.design.OpenDesign;
import padward.ui.model.GroupFieldsParser;
import padward.ui.model.KeptChanges;
import padward.ui.model.WindowModel;
import padward.ui.model.WorkState;
import padward.ui.work.JobSlot;

/**
 * The calibration of a group's lines: one net on all its pads, what a capture of it shows, and the
 * measured delays of the lines that are kept.
 */
final class CalibrationModel {
    private final WindowModel model;
    private final GroupModel group;
    private final JobSlot job;
    private final StringProperty net = new SimpleStringProperty("");
    private final StringProperty capture = new SimpleStringProperty("");
    private final ObjectProperty<Double> sampleMhz = new SimpleObjectProperty<>(0.0);
    private final BooleanProperty accepted = new SimpleBooleanProperty();
    private final ObjectProperty<Optional<Routed>> routed =
            new SimpleObjectProperty<>(Optional.empty());
    private final ObjectProperty<Optional<Calibration>> read =
            new SimpleObjectProperty<>(Optional.empty());
    private Optional<Design> original = Optional.empty();

    CalibrationModel(WindowModel model, GroupModel group) {
        this.model = model;
        this.group = group;
        this.job = new JobSlot(model.jobs(), this);
        model.openedProperty().addListener((p, old, now) -> designChanged());
        net.addListener((p, old, now) -> forget());
        group.padsProperty().addListener((p, old, now) -> forget());
        group.mayDisconnectProperty().addListener((p, old, now) -> forget());
    }

    /**
     * A net on all pads of the group, not kept yet.
     *
     * @param net its name
     * @param pads text of the pads' field
     * @param on what was open
     */
    record Routed(String net, String pads, WorkState on, Bus bus) {
        Design design() {
            return on.opened().design();
        }

        Price price() {
            return bus.price(design());
        }

        List<Cautions.Shared> cautions() {
            return Cautions.ofEdits(design(), bus.edits());
        }
    }

    /** What was measured stays known while changes are kept and undone, not with another design. */
    private void designChanged() {
        job.cancel();
        routed.set(Optional.empty());
        Optional<Design> now = model.keptProperty().get().map(KeptChanges::original);
        if (!now.equals(original)) {
            read.set(Optional.empty());
        }
        original = now;
    }

    private void forget() {
        job.cancel();
        routed.set(Optional.empty());
    }

    /** Finds names of nets for the field. */
    NamesOfDesign names() {
        return new NamesOfDesign(
                model.jobs().background(),
                model.openedProperty()::get,
                OpenDesign::netNames,
                List::of);
    }

    /** Routes the net to all pads of the group. */
    void route() {
        forget();
        accepted.set(false);
        Optional<WorkState> state = model.design().state();
        if (state.isEmpty()) {
            model.notes().add(this, "Open a design first (Ctrl+O).");
            return;
        }
        WorkState on = state.get();
        String wanted = net.get();
        String pads = group.padsProperty().get();
        Bus.Ports ports =
                group.mayDisconnectProperty().get() ? Bus.Ports.MAY_DISCONNECT : Bus.Ports.KEEP;
        job.start(
                "Routing the calibration",
                progress -> {
                    Design design = on.opened().design();
                    Bus bus =
                            CalibrationGroup.of(
                                    design,
                                    NameLookup.requireNet(design, wanted, "net"),
                                    GroupFieldsParser.pads(design, pads),
                                    ports,
                                    WantedDriver.NONE,
                                    progress);
                    return new Routed(wanted, pads, on, bus);
                },
                result -> routed.set(Optional.of(result)));
    }

    /** Whether the routed net can be kept: it is on a pad, and what it costs is accepted. */
    boolean canKeep() {
        return routed.get()
                .filter(r -> !r.bus().lines().isEmpty())
                .filter(r -> accepted.get() || r.price().toAccept().isEmpty())
                .isPresent();
    }

    /** Keeps the net on the pads, as a step that can be undone. */
    void keep() {
        if (!canKeep()) {
            return;
        }
        Routed about = routed.get().orElseThrow();
        List<Edit> edits = about.bus().edits();
        Outcome outcome = Outcome.of(about.design(), edits);
        if (outcome instanceof Outcome.Applied applied) {
            LedgerEntry entry =
                    EntrySigning.unsigned(about.net(), about.pads(), edits)
                            .accepting(PriceText.words(about.price().toAccept()));
            Optional<Double> length =
                    Optional.of(model.leadMetresProperty().get()).filter(m -> m > 0);
            model.design()
                    .keep(
                            about.on().version(),
                            LedgerLead.numbered(entries(), entry, length),
                            about.on().opened().with(applied.design()));
        } else {
            String reasons = String.join("; ", ((Outcome.Refused) outcome).reasons());
            model.notes().add(this, "The calibration cannot be kept: " + reasons + ".");
        }
    }

    private List<LedgerEntry> entries() {
        return model.keptProperty().get().map(KeptChanges::entries).orElse(List.of());
    }

    /** Reads from the capture by how much the lines differ. */
    void read() {
        read.set(Optional.empty());
        Optional<KeptChanges> kept = model.keptProperty().get();
        if (kept.isEmpty()) {
            model.notes().add(this, "Open a design first (Ctrl+O).");
            return;
        }
        String file = capture.get().strip();
        int samplePs = Instrument.samplePs(sampleMhz.get());
        ExternalLineDelay external = external();
        job.start(
                "Reading the capture",
                progress -> {
                    if (file.isEmpty()) {
                        throw new BadInput("capture", "", "a file, .vcd or .csv", "none");
                    }
                    return Calibration.read(
                            Path.of(file), sheet(kept.get(), external), samplePs, progress);
                },
                found -> read.set(Optional.of(found)));
    }

    /**
     * Gives all kept lines on the measured pads their measured delays, as a step of the history.
     */
    void use() {
        Optional<Calibration> found = read.get();
        Optional<KeptChanges> kept = model.keptProperty().get();
        if (found.isEmpty() || kept.isEmpty()) {
            return;
        }
        List<LedgerEntry> before = kept.get().entries();
        List<LedgerEntry> after =
                found.get().to(before, sheet(kept.get(), external()), PairSkew.USUAL_LOCAL_PERCENT);
        long lines = measuredLines(after);
        if (lines == 0) {
            model.notes().add(this, "No kept line is on a pad that was measured.");
            return;
        }
        if (!after.equals(before)) {
            model.design().changeLeads("using the measured delays", after);
        }
        model.notes()
                .done(
                        lines
                                + (lines == 1 ? " line has" : " lines have")
                                + " a measured delay in the ledger");
    }

    /** Where the lead of a line that was measured is connected. */
    String place(Calibration.Reading reading) {
        Design design = model.keptProperty().get().orElseThrow().original();
        int pad = PadNames.findExact(design.fabric(), reading.pad()).orElseThrow();
        return PadNames.placeOf(design, pad);
    }

    private static long measuredLines(List<LedgerEntry> entries) {
        return entries.stream()
                .flatMap(e -> e.leads().stream())
                .filter(l -> l.measured().isPresent())
                .count();
    }

    private ExternalLineDelay external() {
        return ExternalLineDelay.USUAL.withMetres(model.leadMetresProperty().get());
    }

    private static BenchSheet sheet(KeptChanges kept, ExternalLineDelay external) {
        Ledger ledger = kept.toLedger();
        return BenchSheet.of(kept.original(), ledger, kept.design(), external, Instrument.UNKNOWN);
    }

    StringProperty netProperty() {
        return net;
    }

    StringProperty captureProperty() {
        return capture;
    }

    /** Sample rate of the instrument, MS/s; 0 when it is not stated. */
    ObjectProperty<Double> sampleMhzProperty() {
        return sampleMhz;
    }

    /** Whether the user has accepted what the routed net does on the board. */
    BooleanProperty acceptedProperty() {
        return accepted;
    }

    ReadOnlyObjectProperty<Optional<Routed>> routedProperty() {
        return routed;
    }

    /** What the capture shows; empty until one was read. */
    ReadOnlyObjectProperty<Optional<Calibration>> readProperty() {
        return read;
    }
}
