package padward.format.design;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import padward.design.Cell;
import padward.design.Design;
import padward.design.Net;
import padward.design.Occupancy;
import padward.design.Port;
import padward.design.Terminal;
import padward.fabric.pad.Bank;

/** Whether two designs answer everything alike, and whether one answers at all. */
public final class SameDesign {
    private SameDesign() {}

    /** Requires that two are the same, asked one by one and as the files that they write. */
    public static void require(Design one, Design other) throws Exception {
        assertThat(written(other)).isEqualTo(written(one));
        assertThat(told(other)).isEqualTo(told(one));
        assertThat(other.board()).isEqualTo(one.board());
    }

    /** The file that a design writes. */
    public static String written(Design design) throws Exception {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        DesignWriter.write(design, bytes, "f", "b");
        return bytes.toString(StandardCharsets.UTF_8);
    }

    /** All that a design says, asked by number and by name. */
    public static List<Object> told(Design design) {
        List<Object> all = new ArrayList<>();
        all.add(design.name() + " " + design.note());
        all.add(List.copyOf(design.cells()));
        all.add(List.copyOf(design.ports()));
        all.add(List.copyOf(design.nets()));
        all.add(List.of(design.cells().limit(), design.nets().limit(), design.ports().limit()));
        all.add(design.otherNames());
        for (Cell cell : design.cells()) {
            all.add(design.findCell(cell.name()));
            all.add(design.netsAt(cell.id()));
            all.add(design.netsDrivenBy(cell.id()));
            all.add(cell.letsThrough());
            all.add(design.locks().whyKept(cell));
        }
        for (Net net : design.nets()) {
            all.add(design.findNet(net.name()));
            all.add(design.switchedBy(net));
            all.add(design.locks().whyKept(net));
            for (Terminal end : net.ends()) {
                all.add(design.textOf(end) + " at " + design.vertexOf(end));
                all.add(net.requiredPs(end));
                all.add(net.route().placeOf(design.vertexOf(end)));
            }
        }
        for (Port port : design.ports()) {
            all.add(design.findPort(port.name()));
            all.add(design.netsAtPort(port.id()));
            all.add(design.locks().whyKept(port));
        }
        all.add(design.findCell("no such") + "" + design.findNet("") + design.findPort("x"));
        for (int pad = 0; pad < design.fabric().pads().size(); pad++) {
            all.add(design.findPortOn(pad));
        }
        for (Bank bank : design.fabric().info().banks()) {
            all.add(design.outputsAtOddVoltage(bank.name()));
        }
        all.add(design.tiedPins());
        all.add(List.of(design.locks().isEmpty(), design.locks().closed()));
        tellOccupancy(design, all);
        return all;
    }

    private static void tellOccupancy(Design design, List<Object> all) {
        Occupancy uses = design.occupancy();
        for (int vertex = 0; vertex < design.fabric().vertexCount(); vertex++) {
            all.add(uses.occupantId(vertex));
            all.add(uses.findNetOn(vertex).map(Net::id));
            all.add(uses.findNetStartingBeside(vertex).map(Net::id));
            all.add(design.locks().netAtPin(vertex));
        }
        for (int site = 0; site < design.fabric().siteCount(); site++) {
            all.add(uses.findCellOn(site).map(Cell::id));
            all.add(uses.findNetThrough(site).map(Net::id));
        }
        all.add(uses.toBits());
        all.add(uses.usedCount());
    }
}
