"""The independent other end: a pymodbus server on one end of a pair of pseudo-terminals."""

from __future__ import annotations

import asyncio
import contextlib
import os
import select
import tty
from collections.abc import Callable, Mapping
from threading import Event, Thread

from pymodbus.framer import FramerType
from pymodbus.server import ModbusSerialServer
from pymodbus.simulator import DataType, SimData, SimDevice


class Cable:
    """Two pseudo-terminals joined end to end; `ends` are the two paths."""

    def __init__(self) -> None:
        pairs = [os.openpty(), os.openpty()]
        for _, near in pairs:
            tty.setraw(near)
        self._far = [far for far, _ in pairs]
        self._near = [near for _, near in pairs]
        self.ends = tuple(os.ttyname(near) for near in self._near)
        self._woken, self._wake = os.pipe()
        self._thread = Thread(target=self._carry, daemon=True)
        self._thread.start()

    def cut(self) -> None:
        """Both ends hang up."""
        os.write(self._wake, b"x")
        self._thread.join()
        for end in (*self._far, *self._near, self._woken, self._wake):
            with contextlib.suppress(OSError):
                os.close(end)

    def _carry(self) -> None:
        while True:
            ready, _, _ = select.select([*self._far, self._woken], [], [])
            if self._woken in ready:
                return
            for end in ready:
                other = self._far[1 - self._far.index(end)]
                os.write(other, os.read(end, 256))


class PymodbusUnit:
    """pymodbus' server answering for `levels` as unit 1; `port` is the reader's end."""

    def __init__(
        self, levels: Callable[[], Mapping[int, bool]], registers: tuple[int, ...] = (0,)
    ) -> None:
        self._levels, self._registers = levels, list(registers)
        self._cable = Cable()
        self.port = self._cable.ends[1]
        self._ready = Event()
        self._thread = Thread(target=lambda: asyncio.run(self._serve()), daemon=True)

    def __enter__(self) -> PymodbusUnit:
        self._thread.start()
        assert self._ready.wait(10)
        return self

    def __exit__(self, *_: object) -> None:
        self._loop.call_soon_threadsafe(self._end.set)
        self._thread.join(10)
        self._cable.cut()

    async def _serve(self) -> None:
        self._loop, self._end = asyncio.get_running_loop(), asyncio.Event()
        server = ModbusSerialServer(
            self._device(), framer=FramerType.RTU, port=self._cable.ends[0], baudrate=115200
        )
        await server.serve_forever(background=True)
        self._ready.set()
        await self._end.wait()
        await server.shutdown()

    def _device(self) -> SimDevice:
        def bits() -> list[SimData]:
            return [SimData(0, values=[False] * 16, datatype=DataType.BITS)]

        holding = [SimData(0, values=self._registers, datatype=DataType.REGISTERS)]
        blocks = (bits(), bits(), holding, [SimData(0, datatype=DataType.REGISTERS)])
        return SimDevice(id=1, simdata=blocks, action=self._act)

    async def _act(self, function, start, address, count, current, values):
        if function in (1, 2):  # the store packs 16 bits into each word, the first one lowest
            current[0] = sum(level << number for number, level in self._levels().items())
