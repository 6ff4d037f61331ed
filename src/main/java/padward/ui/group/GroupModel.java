package padward.ui.group;

import java.util.Map;
import java.util.Optional;
import javafx.beans.property.IntegerProperty;
import javafx.beans.property.ObjectProperty;
import javafx.beans.property.ReadOnlyBooleanProperty;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.SimpleIntegerProperty;
import javafx.beans.property.SimpleObjectProperty;
import javafx.beans.property.SimpleStringProperty;
import javafx.beans.property.StringProperty;
import javafx.collections.FXCollections;
import javafx.collections.ObservableMap;
import padward.breakout.group.Bus;
import padward.breakout.group.MatchedGroup;
import padward.breakout.group.RouteMatrix;
import padward.change.LedgerEntry;
import padward.change.WhatIf;
import padward.design.Design;
import padward.format.ledger.EntrySigning;
import padward.timing.ExternalLine;
import padward.ui.design.OpenDesign;
import padward.ui.model.ExplorerModel;
import padward.ui.model.GroupText;
import padward.ui.work.OneJob;

/** Several nets at once: what could be, what is pinned, what is laid. No control. */
public final class GroupModel {
    private final ExplorerModel model;
    private final OneJob job;
    private final StringProperty nets = new SimpleStringProperty("");
    private final StringProperty pads = new SimpleStringProperty("any");
    private final ObjectProperty<Bus.Aim> aim = new SimpleObjectProperty<>(Bus.Aim.SUM);
    private final IntegerProperty tolerancePs = new SimpleIntegerProperty(150);
    private final ObjectProperty<Optional<RouteMatrix>> prospect =
            new SimpleObjectProperty<>(Optional.empty());
    private final ObservableMap<Integer, Integer> pinned = FXCollections.observableHashMap();
    private final ObjectProperty<Optional<Bus>> bus = new SimpleObjectProperty<>(Optional.empty());
    private final ObjectProperty<Optional<MatchedGroup>> matched =
            new SimpleObjectProperty<>(Optional.empty());

    /** A group of nets of whatever design is open. */
    public GroupModel(ExplorerModel model) {
        this.model = model;
        this.job = new OneJob(model.jobs(), this);
        model.openedProperty().addListener((p, old, now) -> putAway());
    }

    private void putAway() {
        job.cancel();
        pinned.clear();
        matched.set(Optional.empty());
        bus.set(Optional.empty());
        prospect.set(Optional.empty());
    }

    /** Prices all pairs of what is typed, and lays the group. */
    void look() {
        Optional<OpenDesign> opened = model.openedProperty().get();
        if (opened.isEmpty()) {
            model.notes().tell(this, "Open a design first (Ctrl+O).");
            return;
        }
        putAway();
        Design design = opened.get().design();
        String wanted = nets.get();
        String allowed = pads.get();
        Bus.Aim by = aim.get();
        record Looked(RouteMatrix prospect, Bus bus) {}
        job.start(
                "Routing the group",
                progress -> {
                    RouteMatrix seen =
                            RouteMatrix.of(
                                    design,
                                    GroupText.nets(design, wanted),
                                    GroupText.pads(design, allowed),
                                    by,
                                    progress);
                    seen.complete(progress);
                    return new Looked(seen, seen.route(Map.of(), progress));
                },
                looked -> {
                    prospect.set(Optional.of(looked.prospect()));
                    bus.set(Optional.of(looked.bus()));
                });
    }

    /** Pins a net to a pad, by their places; or takes the pin out when it is there. */
    void pin(int net, int pad) {
        if (prospect.get().isEmpty()) {
            return;
        }
        if (Integer.valueOf(pad).equals(pinned.get(net))) {
            pinned.remove(net);
        } else {
            pinned.values().removeIf(p -> p == pad);
            pinned.put(net, pad);
        }
        RouteMatrix seen = prospect.get().get();
        Map<Integer, Integer> pins = Map.copyOf(pinned);
        matched.set(Optional.empty());
        job.start(
                "Routing the group",
                progress -> seen.route(pins, progress),
                routed -> bus.set(Optional.of(routed)));
    }

    /** Makes the ways agree. */
    void match() {
        if (bus.get().isEmpty() || bus.get().get().lines().isEmpty()) {
            return;
        }
        Design design = prospect.get().orElseThrow().design();
        Bus routed = matched.get().map(MatchedGroup::before).orElse(bus.get().get());
        int tolerance = tolerancePs.get();
        job.start(
                "Matching the delays",
                progress -> MatchedGroup.of(design, routed, tolerance, ExternalLine.NONE, progress),
                result -> {
                    matched.set(Optional.of(result));
                    bus.set(Optional.of(result.after()));
                });
    }

    /** Keeps the group as it is laid: the design is shown with it from now on. */
    void keep() {
        if (bus.get().isEmpty() || bus.get().get().lines().isEmpty()) {
            return;
        }
        Bus routed = bus.get().get();
        OpenDesign opened = model.openedProperty().get().orElseThrow();
        LedgerEntry entry = EntrySigning.unsigned(nets.get(), pads.get(), routed.edits());
        job.start(
                "Keeping the group",
                progress -> opened.with(WhatIf.of(opened.design(), routed.edits())),
                shown -> model.design().keep(entry, shown));
    }

    StringProperty netsProperty() {
        return nets;
    }

    StringProperty padsProperty() {
        return pads;
    }

    ObjectProperty<Bus.Aim> aimProperty() {
        return aim;
    }

    IntegerProperty toleranceProperty() {
        return tolerancePs;
    }

    ReadOnlyObjectProperty<Optional<RouteMatrix>> prospectProperty() {
        return prospect;
    }

    ObservableMap<Integer, Integer> pinned() {
        return pinned;
    }

    ReadOnlyObjectProperty<Optional<Bus>> busProperty() {
        return bus;
    }

    ReadOnlyObjectProperty<Optional<MatchedGroup>> matchedProperty() {
        return matched;
    }

    ReadOnlyBooleanProperty busyProperty() {
        return job.busyProperty();
    }
}
