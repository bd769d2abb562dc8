"""The climate in a job file: how moist the wood is where it is worked and where it will stand."""

from __future__ import annotations

from pydantic import Field

from ..shop.moisture import Region
from .read.moisture_entry import WoodMoisture
from .table import Table


class ClimateTable(Table):
    """How moist solid wood is in the shop and in the house: in percent, or by temperature and humidity."""

    region: Region | None = Field(
        default=None,
        description="Where in the United States the house stands; what you leave out is what is usual there.",
    )
    shop: WoodMoisture | None = Field(default=None, description="In the shop, when parts are cut.")
    house_dry: WoodMoisture | None = Field(
        default=None, description="In the house at its driest, in heated rooms late in winter."
    )
    house_damp: WoodMoisture | None = Field(
        default=None, description="In the house at its dampest, late in summer."
    )
