"""Spanish trigger words around a mention; classes as in triggers_en."""

from __future__ import annotations

from bot.understanding.context import Triggers, table, words_of

RELATIVES = table("""
mi_paciente el_paciente_de un_paciente una_paciente mis_pacientes mis_alumnos el_que_tiene_fiebre_soy_yo
un_señor una_señora un_tipo una_chica un_chico un_niño una_niña el_vecino la_vecina cachorro cachorrita gatito perrito
perrita gata perra suegros cuñados sobrinos primos bisabuela madrastra padrastro tias tios portero chofer mesero
compañeras
hijo hija hijos hijas niño niña niños niñas nene nena bebe nieto nieta madre mama padre papa padres marido mujer
esposo esposa novio novia pareja hermano hermana hermanos tio tia primo prima sobrino sobrina abuela abuelo amigo
amiga amigos compadre comadre colega compañeros cliente clienta alumno alumna maestro maestra exnovio padrino madrina
mejor_amiga
mejor_amigo hay_uno_con hay_una_con otro_paciente el_mayor la_mayor compañero compañera jefe vecino vecina suegra
suegro cuñado cuñada profesora alguien gente perro gato
vecinito
""")

ES = Triggers(
    negation=table("""
no sin nunca ni tampoco ningun ninguna ninguno nada jamas niego cero ya_no no_hay no_tengo no_he_tenido no_veo
no_siento
nadie
"""),
    negation_after=table("no ninguno ninguna nada nunca negativo no_tengo no_hay tampoco cero"),
    pseudo=table("""
no_solo no_se_si no_se_que no_se_como no_estoy_seguro no_estoy_segura no_puedo_mas no_mejora no_mejoro no_se_quita
no_se_va no_se_me_quita no_se_me_va no_me_siento_bien no_estoy_bien no_me_encuentro no_es_normal no_entiendo
sin_embargo no_obstante no_para no_deja sin_parar no_me_deja sin_fuerzas sin_energia sin_apetito sin_voz sin_aire
sin_querer no_importa no_quiero no_pasa_nada sin_duda nada_mas no_duermo no_tan_bien no_muy_bien sin_dormir
no_aguanto sin_falta no_ha_mejorado no_se_me_pasa no_se_cura no_sale no_puedo_dormir no_bromeo no_exagero
no_me_gusta
"""),
    terminate=table("""
pero aunque sin_embargo solo solamente salvo excepto porque ya_que asi_que entonces ahora todavia aun mientras hasta
ademas tambien menos sino y_ahora cuando_si y_tengo y_me y_tambien y_mi
"""),
    list_or=frozenset({"o", "ni", "u"}),
    past_before=table(" ".join(str(year) for year in range(1955, 2026)) + """
fue_en_el_año en_el_ochenta en_los_ochenta en_los_noventa antecedente_de a_los_15 a_los_quince a_los_20 en_la_mili
el_primer_invierno el_primer_mes de_joven de_chico de_chica de_chiquito de_chiquita de_bebe a_los_veinte
a_los_quince hace_tres_años hace_dos_años
el_siglo_pasado siglo_pasado antes_del_diagnostico antes_babeaba en_mi_primer en_otro_tratamiento el_invierno_pasado
antes hace_años hace_meses hace_un_año hace_tiempo de_niño de_niña cuando_era el_año_pasado el_mes_pasado
en_el_pasado en_enero en_febrero en_marzo en_abril en_mayo en_junio en_julio en_agosto en_septiembre en_octubre
en_noviembre en_diciembre antes_del_tratamiento antes_de_empezar hace_mucho hace_semanas antecedentes_de
el_verano_pasado solia
"""),
    past_after=table("""
no_han_vuelto sin_recidiva ya_me_la_curaron ya_me_lo_curaron resuelta_por resuelto_por no_ha_vuelto y_no_volvio
nunca_las_ha_tenido
no_volvio nunca_mas ahora_ni_me_acuerdo se_acabo ya_curada ya_curado desde_entonces_nada quede_bien es_historia
ahora_grande_no hoy_estoy_bien
ya_desaparecieron ya_desaparecio ya_se_fueron ya_se_curaron ya_se_curo ya_paso ya_se_fue se_fue se_me_quito se_quito
ya_estoy_bien ya_esta_bien ya_no desaparecio se_curo ya_bien ya_mejor ya_se_paso se_me_paso ya_se_quito
ha_desaparecido ahora_bien curado curada ya_cedio ya_se_me_paso ya_se_me_quito ya_remitio ya_estoy_mejor se_resolvio
"""),
    ongoing=table("""
todavia sigue aun sigo desde no_se_va no_se_quita otra_vez de_nuevo ahora_mismo pero_ahora y_ahora empezo ha_vuelto
volvio antes_de_ayer no_se_me_quita cada_dia peor_que_antes que_antes antes_no
"""),
    supposed=table("""
en_caso_presentara en_caso_de_que si_presentara si_presento si_le_viera si_le_veo si_le_sale si_le_da si_apareciera
en_caso_tenga si_llegara_a si_hubiera
si_algun_dia y_si_algun imaginate_que imagina_que supon_que si_le_llegara me_da_miedo_quedarme si_llegara si_me_diera
y_si_un_dia y_si que_hago_si que_pasa_si que_hacer_si si_un_dia en_caso_de por_si si_alguna_vez si_me_da si_llego_a
si_tengo si_se_me si_vomito si_me_pasa suponiendo supongamos que_debo_hacer_si cuando_debo_preocuparme
me_preocupa_que me_da_miedo_que tengo_miedo_de si_no_puedo que_pasaria_si si_me_sale si_aparece si_noto si_empiezo
si_tomo si_la_tomo si_lo_tomo si_me_atraganto si_hay miedo_a evitar prevenir si_veo si_me si_siento a_quien_llamo_si
debo_llamar_si llamo_si
"""),
    true_now=table("lleva llevo todavia sigue aun ahora_mismo ya_lleva desde"),
    asked_soft=table("es_normal es_comun es_malo"),
    asked_open=table("es son puede pueden da el la"),
    condition=table("si cuando_llegue"),
    not_if=table("""
no_se_si como_si incluso_si ni_si saber_si no_estoy_seguro_si a_ver_si me_pregunto_si
"""),
    asks=table("""
que_hago a_quien debo donde que_debo que_pasa llamo tengo_que puedo cuando_debo como que_tengo
"""),
    asked=table("""
eso_de_los eso_de_las eso_de_la eso_del a_cuanta_gente que_pone_en pone_en_el_papel dice_la_hoja ante_heces
el_folleto_dice el_prospecto_dice folleto_habla me_pidieron_avisar
me_dijeron_que_avisara avisar_si te_puede_dar te_puede_salir le_puede_dar_a el_inhalador_puede puede_el_inhalador
dice_el_folleto segun_el_folleto segun_el_prospecto me_preguntaron_por me_pregunto_por
me_pregunto_si me_preguntaron_si
por_que_me_preguntan por_que_preguntan es_contagioso como_se_ve que_diferencia_hay que_significa me_preguntan_siempre
medicina_da medicamento_da jarabe_da puede_causar puede_dar puede_provocar esto_puede esto_causa esto_da causa_esto
es_normal_tener es_normal_estar es_normal_la es_normal_el es_normal_que_de es_comun como_se_si como_sabre
cuales_son_los_sintomas provoca produce puede_producir es_verdad_que es_cierto_que riesgo_de he_leido_que
me_va_a_dar puedo_tener me_puede_dar que_es lei_que dicen_que los_esteroides los_corticoides el_corticoide
la_budesonida puede_salir que_son es_frecuente
"""),
    asked_after=table("""
normal comun frecuente habitual es_un_efecto un_efecto_secundario efecto_secundario es_normal_con es_comun_con
es_un_efecto_secundario es_efecto son_un_efecto son_efectos
"""),
    uncertain=table("""
a_lo_mejor quizas quiza tal_vez puede_que creo_que creo no_se_si parece como_que igual_es posiblemente
no_estoy_seguro no_estoy_segura me_parece casi
"""),
    since=table("""
desde_que_tomo desde_que_empece desde_la_nueva desde_el_nuevo despues_de_la_dosis despues_de_tomar desde_la_ultima
desde_que_me_la
"""),
    relatives=RELATIVES,
    third=words_of("""
el_ ella ellos ellas
"""),
    first=words_of("""
yo me mi mis tengo estoy conmigo siento puedo quiero vomite desmaye devolvi escupo pienso trago respiro
"""),
    children=table("hijo hija hijos hijas niño niña nene nena bebe niños"),
    telling=table("""
dice dicen dijo cree noto vio ve me_dice me_dijo piensa opina me_ve me_noto me_vio ha_visto ha_notado insiste me_oye
me_trajo me_llevo se_preocupa
"""),
    not_subject=words_of("""
de del con por que a_ para como contra
"""),
    subjects=words_of("""
tengo estoy siento mi hay
"""),
    verbs=words_of("""
esta estan es son vomite puedo hinchan duele quiero desmaye baja pasa sigue tengo atoro atasco
"""),
    answers=words_of("""
sin nada
"""),
    clause_starts=words_of("""
yo tengo estoy hay
"""),
    joins=words_of("""
y o si me te le les se nos mi mis un una dia cuando que porque como donde quien ni pero antes despues mientras
ya a de no la lo al le
"""),
    openers=words_of("""
y hace pues bueno unos como ya eso fue
"""),
    reach=6,
)
